-- Wishes by the clocks of the site, and one more kind: what alone a station is for.
CREATE TABLE wish_new (
  id         TEXT    PRIMARY KEY CHECK (id <> ''),
  night_id   TEXT    NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  position   INTEGER NOT NULL,
  kind       TEXT    NOT NULL CHECK (kind IN ('pin', 'bar', 'ask', 'only')),
  station_id TEXT    REFERENCES station (id) ON DELETE CASCADE,
  target_key TEXT    CHECK (target_key <> ''),
  aim        TEXT    CHECK (aim IN ('whole', 'close')),
  starts_at  TEXT    CHECK (starts_at GLOB '[0-2][0-9]:[0-5][0-9]'),
  ends_at    TEXT    CHECK (ends_at GLOB '[0-2][0-9]:[0-5][0-9]'),
  things     TEXT    NOT NULL CHECK (json_valid(things)),
  UNIQUE (night_id, position)
) STRICT;
-- No version of the program has kept a wish, so there is nothing to bring over.
DROP TABLE wish;
ALTER TABLE wish_new RENAME TO wish;
