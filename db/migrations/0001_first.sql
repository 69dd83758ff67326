-- Instants are UTC text (ISO 8601 with milliseconds and Z). Wall-clock times and dates are text by the site's zone.

CREATE TABLE setting (
  key   TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE site (
  id            TEXT PRIMARY KEY CHECK (id <> ''),
  name          TEXT NOT NULL CHECK (name <> ''),
  latitude_deg  REAL NOT NULL CHECK (latitude_deg BETWEEN -90 AND 90),
  longitude_deg REAL NOT NULL CHECK (longitude_deg BETWEEN -180 AND 180),
  height_m      REAL NOT NULL,
  zone          TEXT NOT NULL CHECK (zone <> ''),
  sky_mag       REAL NOT NULL
) STRICT;

CREATE TABLE horizon (
  site_id      TEXT    NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  position     INTEGER NOT NULL CHECK (position >= 0),
  azimuth_deg  REAL    NOT NULL CHECK (azimuth_deg >= 0 AND azimuth_deg < 360),
  altitude_deg REAL    NOT NULL CHECK (altitude_deg BETWEEN 0 AND 90),
  name         TEXT    NOT NULL,
  PRIMARY KEY (site_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE glow (
  site_id      TEXT    NOT NULL REFERENCES site (id) ON DELETE CASCADE,
  position     INTEGER NOT NULL CHECK (position >= 0),
  from_deg     REAL    NOT NULL,
  to_deg       REAL    NOT NULL,
  brighter_mag REAL    NOT NULL CHECK (brighter_mag >= 0),
  PRIMARY KEY (site_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE telescope (
  id           TEXT PRIMARY KEY CHECK (id <> ''),
  name         TEXT NOT NULL CHECK (name <> ''),
  mount        TEXT NOT NULL,
  axis_low_cm  REAL NOT NULL CHECK (axis_low_cm > 0),
  axis_high_cm REAL NOT NULL CHECK (axis_high_cm > 0),
  chair_reach  TEXT NOT NULL,
  floor_deg    REAL NOT NULL,
  ceiling_deg  REAL NOT NULL
) STRICT;

CREATE TABLE tube (
  id              TEXT    PRIMARY KEY CHECK (id <> ''),
  telescope_id    TEXT    NOT NULL REFERENCES telescope (id) ON DELETE CASCADE,
  position        INTEGER NOT NULL CHECK (position >= 0),
  name            TEXT    NOT NULL,
  design          TEXT    NOT NULL,
  aperture_mm     REAL    NOT NULL CHECK (aperture_mm > 0),
  focal_length_mm REAL    NOT NULL CHECK (focal_length_mm > 0),
  obstruction     REAL    NOT NULL CHECK (obstruction >= 0 AND obstruction < 1),
  transmission    REAL    NOT NULL CHECK (transmission > 0 AND transmission <= 1),
  has_diagonal    INTEGER NOT NULL CHECK (has_diagonal IN (0, 1)),
  UNIQUE (telescope_id, position)
) STRICT;

CREATE TABLE eyepiece (
  id                 TEXT    PRIMARY KEY CHECK (id <> ''),
  telescope_id       TEXT    NOT NULL REFERENCES telescope (id) ON DELETE CASCADE,
  position           INTEGER NOT NULL CHECK (position >= 0),
  name               TEXT    NOT NULL,
  focal_length_mm    REAL    NOT NULL CHECK (focal_length_mm > 0),
  apparent_field_deg REAL    NOT NULL CHECK (apparent_field_deg > 0),
  field_stop_mm      REAL    CHECK (field_stop_mm > 0),
  UNIQUE (telescope_id, position)
) STRICT;

CREATE TABLE person (
  id   TEXT PRIMARY KEY CHECK (id <> ''),
  name TEXT NOT NULL UNIQUE CHECK (name <> '')
) STRICT;

CREATE TABLE night (
  id       TEXT PRIMARY KEY CHECK (id <> ''),
  site_id  TEXT NOT NULL REFERENCES site (id),
  title    TEXT NOT NULL CHECK (title <> ''),
  date     TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  opens    TEXT NOT NULL CHECK (opens GLOB '[0-2][0-9]:[0-5][0-9]'),
  closes   TEXT NOT NULL CHECK (closes GLOB '[0-2][0-9]:[0-5][0-9]'),
  state    TEXT NOT NULL,
  settings TEXT NOT NULL CHECK (json_valid(settings))
) STRICT;
CREATE INDEX night_by_date ON night (date, opens);

CREATE TABLE visitors (
  night_id  TEXT    NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  position  INTEGER NOT NULL CHECK (position >= 0),
  starts_at TEXT    NOT NULL CHECK (starts_at GLOB '[0-2][0-9]:[0-5][0-9]'),
  adults    INTEGER NOT NULL CHECK (adults >= 0),
  children  INTEGER NOT NULL CHECK (children >= 0),
  seated    INTEGER NOT NULL CHECK (seated >= 0),
  PRIMARY KEY (night_id, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE station (
  id              TEXT    PRIMARY KEY CHECK (id <> ''),
  night_id        TEXT    NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  position        INTEGER CHECK (position >= 0),        -- null once it no longer stands in the row
  name            TEXT    NOT NULL CHECK (name <> ''),
  kind            TEXT    NOT NULL,
  telescope_id    TEXT    REFERENCES telescope (id),
  person_id       TEXT    REFERENCES person (id),
  is_for_children INTEGER NOT NULL CHECK (is_for_children IN (0, 1))
) STRICT;
CREATE INDEX station_by_night ON station (night_id, position);

CREATE TABLE wish (
  id         TEXT PRIMARY KEY CHECK (id <> ''),
  night_id   TEXT NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  kind       TEXT NOT NULL CHECK (kind IN ('pin', 'bar', 'ask')),
  station_id TEXT REFERENCES station (id) ON DELETE CASCADE,
  target_key TEXT NOT NULL CHECK (target_key <> ''),
  aim        TEXT CHECK (aim IN ('whole', 'close')),
  starts_at  TEXT,
  ends_at    TEXT
) STRICT;

CREATE TABLE object (
  key  TEXT PRIMARY KEY CHECK (key GLOB 'own-*'),
  data TEXT NOT NULL CHECK (json_valid(data))
) STRICT, WITHOUT ROWID;

CREATE TABLE object_name (
  name       TEXT NOT NULL CHECK (name <> ''),
  object_key TEXT NOT NULL REFERENCES object (key) ON DELETE CASCADE,
  PRIMARY KEY (name, object_key)
) STRICT, WITHOUT ROWID;

CREATE TABLE story (
  object_key TEXT NOT NULL CHECK (object_key <> ''),
  language   TEXT NOT NULL CHECK (language <> ''),
  field      TEXT NOT NULL,
  text       TEXT NOT NULL,
  source     TEXT NOT NULL,
  PRIMARY KEY (object_key, language, field)
) STRICT, WITHOUT ROWID;

CREATE TABLE tour (
  id            TEXT    PRIMARY KEY CHECK (id <> ''),
  night_id      TEXT    NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  version       INTEGER NOT NULL CHECK (version >= 1),
  made_at       TEXT    NOT NULL,
  why           TEXT    NOT NULL CHECK (why IN ('first', 'asked', 'changed')),
  seed          INTEGER NOT NULL,
  steps         INTEGER NOT NULL CHECK (steps >= 0),
  inputs_digest TEXT    NOT NULL,
  value         REAL    NOT NULL,
  seconds       REAL    NOT NULL,
  spares        TEXT    NOT NULL CHECK (json_valid(spares)),
  notices       TEXT    NOT NULL CHECK (json_valid(notices)),
  UNIQUE (night_id, version)
) STRICT;

CREATE TABLE stop (
  tour_id    TEXT    NOT NULL REFERENCES tour (id) ON DELETE CASCADE,
  position   INTEGER NOT NULL CHECK (position >= 0),
  station_id TEXT    NOT NULL REFERENCES station (id) ON DELETE CASCADE,
  target_key TEXT    NOT NULL CHECK (target_key <> ''),
  aim        TEXT    NOT NULL CHECK (aim IN ('whole', 'close')),
  setups     TEXT    NOT NULL CHECK (json_valid(setups)),
  starts_at  TEXT    NOT NULL,
  ends_at    TEXT    NOT NULL CHECK (ends_at > starts_at),
  leave_by   TEXT    CHECK (json_valid(leave_by)),
  chance     REAL    NOT NULL,
  view       REAL    NOT NULL,
  looks      REAL    NOT NULL,
  reasons    TEXT    NOT NULL CHECK (json_valid(reasons)),
  PRIMARY KEY (tour_id, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX stop_by_station ON stop (station_id);

CREATE TABLE tour_proof (
  tour_id TEXT NOT NULL REFERENCES tour (id) ON DELETE CASCADE,
  made_at TEXT NOT NULL,
  bound   REAL NOT NULL,
  PRIMARY KEY (tour_id, made_at, bound)
) STRICT, WITHOUT ROWID;

CREATE TABLE mark (
  seq         INTEGER PRIMARY KEY AUTOINCREMENT,
  key         TEXT NOT NULL UNIQUE CHECK (key <> ''),
  night_id    TEXT NOT NULL REFERENCES night (id),
  station_id  TEXT REFERENCES station (id),
  kind        TEXT NOT NULL,
  payload     TEXT NOT NULL CHECK (json_valid(payload)),
  by          TEXT NOT NULL,
  received_at TEXT NOT NULL,
  happened_at TEXT NOT NULL
) STRICT;
CREATE INDEX mark_by_night ON mark (night_id, seq);
CREATE INDEX mark_by_station ON mark (station_id);

CREATE TABLE phone (
  id         TEXT PRIMARY KEY CHECK (id <> ''),
  token_hash TEXT NOT NULL UNIQUE CHECK (length(token_hash) = 64),
  role       TEXT NOT NULL,
  name       TEXT NOT NULL,
  made_at    TEXT NOT NULL,
  expires_at TEXT NOT NULL,
  revoked_at TEXT
) STRICT;
