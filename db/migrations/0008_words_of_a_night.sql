-- Words that a host wrote of a thing for one night alone; they go with the night.
CREATE TABLE night_story (
  night_id   TEXT NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  object_key TEXT NOT NULL CHECK (object_key <> ''),
  language   TEXT NOT NULL CHECK (language <> ''),
  field      TEXT NOT NULL,
  text       TEXT NOT NULL,
  PRIMARY KEY (night_id, object_key, language, field)
) STRICT, WITHOUT ROWID;
