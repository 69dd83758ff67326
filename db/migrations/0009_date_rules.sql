-- What a host asks of a date at a site: the kind of night, its hours, the days that will do and the Moon.
CREATE TABLE date_rules (
  site_id TEXT PRIMARY KEY REFERENCES site (id) ON DELETE CASCADE,
  rules   TEXT NOT NULL CHECK (json_valid(rules))
) STRICT, WITHOUT ROWID;
