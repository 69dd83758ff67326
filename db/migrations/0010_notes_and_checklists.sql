-- What the host must know of a site: its lamps, its gate, its ways, each in the host's own words.
CREATE TABLE site_note (
  site_id TEXT PRIMARY KEY REFERENCES site (id) ON DELETE CASCADE,
  notes   TEXT NOT NULL CHECK (json_valid(notes))
) STRICT, WITHOUT ROWID;

-- The list of a night where the host has changed the one that ships.
CREATE TABLE checklist (
  night_id TEXT PRIMARY KEY REFERENCES night (id) ON DELETE CASCADE,
  items    TEXT NOT NULL CHECK (json_valid(items)),
  put_at   TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- What is done of it: a row an item, so that two people who tick at once keep both ticks.
CREATE TABLE checklist_tick (
  night_id TEXT NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  item     TEXT NOT NULL,
  PRIMARY KEY (night_id, item)
) STRICT, WITHOUT ROWID;

-- What was agreed with the school of a visiting class.
CREATE TABLE class_visit (
  night_id TEXT PRIMARY KEY REFERENCES night (id) ON DELETE CASCADE,
  visit    TEXT NOT NULL CHECK (json_valid(visit))
) STRICT, WITHOUT ROWID;
