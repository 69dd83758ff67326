-- Phones of a night: where they stand, whether the host has let in one that joined quickly, how far its clock is off.
ALTER TABLE phone ADD COLUMN night_id TEXT REFERENCES night (id) ON DELETE CASCADE;
ALTER TABLE phone ADD COLUMN station_id TEXT REFERENCES station (id) ON DELETE SET NULL;
ALTER TABLE phone ADD COLUMN is_confirmed INTEGER NOT NULL DEFAULT 1 CHECK (is_confirmed IN (0, 1));
ALTER TABLE phone ADD COLUMN ahead_sec REAL;

-- How often the way in for phones was changed on a night; the codes themselves are nowhere kept.
CREATE TABLE join_turn (
  night_id TEXT    PRIMARY KEY REFERENCES night (id) ON DELETE CASCADE,
  turn     INTEGER NOT NULL CHECK (turn > 0)
) STRICT;
