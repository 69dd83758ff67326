-- What was seen or forecast of the weather of a night, as it was entered: only ever added.
CREATE TABLE go_reading (
  seq        INTEGER PRIMARY KEY,
  night_id   TEXT NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  kind       TEXT NOT NULL CHECK (kind IN ('cloud', 'wind', 'gust', 'air', 'temperature', 'rain', 'thunder')),
  value      REAL NOT NULL,
  entered_at TEXT NOT NULL,
  entered_by TEXT NOT NULL CHECK (entered_by IN ('host', 'host-phone'))
) STRICT;
CREATE INDEX go_reading_of_night ON go_reading (night_id, seq);

-- What the host decided, and what was proposed then: only ever added. The last one is the state of the night.
CREATE TABLE go_decision (
  seq          INTEGER PRIMARY KEY,
  night_id     TEXT NOT NULL REFERENCES night (id) ON DELETE CASCADE,
  state        TEXT NOT NULL CHECK (state IN ('on', 'doubtful', 'off')),
  proposed     TEXT NOT NULL CHECK (proposed IN ('on', 'doubtful', 'off', 'unknown')),
  why          TEXT NOT NULL,
  decided_at   TEXT NOT NULL,
  decided_by   TEXT NOT NULL CHECK (decided_by IN ('host', 'host-phone')),
  decided_name TEXT NOT NULL
) STRICT;
CREATE INDEX go_decision_of_night ON go_decision (night_id, seq);

-- When it is decided, which limit of cloud holds, where the next word comes, the back-up date, and a sentence that the
-- host wrote in place of the one that is made from `sentence_facts`: it holds while those are true.
CREATE TABLE go_plan (
  night_id        TEXT PRIMARY KEY REFERENCES night (id) ON DELETE CASCADE,
  decides_at      TEXT CHECK (decides_at GLOB '[0-2][0-9]:[0-5][0-9]'),
  cloud_limit     TEXT CHECK (cloud_limit IN ('cloud', 'moonCloud')),
  next_word_at    TEXT CHECK (next_word_at GLOB '[0-2][0-9]:[0-5][0-9]'),
  next_word_where TEXT NOT NULL,
  back_up_date    TEXT CHECK (back_up_date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  sentence        TEXT NOT NULL,
  sentence_facts  TEXT NOT NULL
) STRICT, WITHOUT ROWID;
