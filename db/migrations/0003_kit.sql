-- A Barlow (factor above 1) or a reducer (below 1) that stays with a telescope and serves all its eyepieces.
CREATE TABLE factor (
  id           TEXT    PRIMARY KEY CHECK (id <> ''),
  telescope_id TEXT    NOT NULL REFERENCES telescope (id) ON DELETE CASCADE,
  position     INTEGER NOT NULL CHECK (position >= 0),
  name         TEXT    NOT NULL CHECK (name <> ''),
  factor       REAL    NOT NULL CHECK (factor BETWEEN 0.3 AND 5),
  UNIQUE (telescope_id, position)
) STRICT;
