-- What the host typed is kept, not what the program of that day made of it.
UPDATE object SET data = CASE json_extract(data, '$.kind')
  WHEN 'comet' THEN json_object(
    'name', json_extract(data, '$.name'), 'kind', 'comet',
    'raDeg', json_extract(data, '$.raDeg'), 'decDeg', json_extract(data, '$.decDeg'),
    'magnitude', json_extract(data, '$.magnitude'),
    'majorArcmin', json_extract(data, '$.majorArcmin'), 'condensation', json_extract(data, '$.condensation'),
    'appeal', json_extract(data, '$.appeal'), 'appealReason', json_extract(data, '$.appealReason'))
  ELSE json_object(
    'name', json_extract(data, '$.name'), 'kind', json_extract(data, '$.kind'),
    'raDeg', json_extract(data, '$.raDeg'), 'decDeg', json_extract(data, '$.decDeg'),
    'magnitude', json_extract(data, '$.magnitude'),
    'appeal', json_extract(data, '$.appeal'), 'appealReason', json_extract(data, '$.appealReason'))
  END;

-- What a thing was until the host changed it: the marks of a night are judged by what was entered then.
CREATE TABLE object_before (
  object_key TEXT NOT NULL REFERENCES object (key) ON DELETE CASCADE,
  until_at   TEXT NOT NULL,
  data       TEXT NOT NULL CHECK (json_valid(data)),
  PRIMARY KEY (object_key, until_at)
) STRICT, WITHOUT ROWID;
