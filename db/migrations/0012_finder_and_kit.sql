-- The finder of a telescope, null where nobody has said; since which year it is in the kit; what is put away is offered for no new night.
ALTER TABLE telescope ADD COLUMN finder_kind TEXT;
ALTER TABLE telescope ADD COLUMN finder_field_deg REAL CHECK (finder_field_deg > 0);
ALTER TABLE telescope ADD COLUMN finder_power REAL CHECK (finder_power > 0);
ALTER TABLE telescope ADD COLUMN in_kit_since INTEGER;
ALTER TABLE telescope ADD COLUMN note TEXT;
ALTER TABLE telescope ADD COLUMN is_put_away INTEGER NOT NULL DEFAULT 0 CHECK (is_put_away IN (0, 1));
