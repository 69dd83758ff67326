-- What the host wrote into the report of a night, beside what is reckoned from its marks.
CREATE TABLE report_edit (
  night_id TEXT PRIMARY KEY REFERENCES night (id) ON DELETE CASCADE,
  edits    TEXT NOT NULL CHECK (json_valid(edits)),
  put_at   TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- A night whose report is settled, and the state to which it goes back when it is opened again.
CREATE TABLE night_closing (
  night_id     TEXT PRIMARY KEY REFERENCES night (id) ON DELETE CASCADE,
  state_before TEXT NOT NULL CHECK (state_before IN ('planned', 'on', 'doubtful', 'off')),
  closed_at    TEXT NOT NULL
) STRICT, WITHOUT ROWID;
