-- How much more light newcomers need at a site than a laboratory's observers, as the host has taken it from the marks.
CREATE TABLE newcomers (
  site_id TEXT    PRIMARY KEY REFERENCES site (id) ON DELETE CASCADE,
  factor  REAL    NOT NULL CHECK (factor BETWEEN 1 AND 8),
  low     REAL    NOT NULL CHECK (low BETWEEN 1 AND factor),
  high    REAL    NOT NULL CHECK (high BETWEEN factor AND 8),
  marks   INTEGER NOT NULL CHECK (marks >= 1),
  set_at  TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
