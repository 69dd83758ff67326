CREATE TABLE meta (digest TEXT NOT NULL) STRICT;

CREATE TABLE star (
  hip INTEGER PRIMARY KEY,
  ra_deg REAL NOT NULL,
  dec_deg REAL NOT NULL,
  pm_ra_mas_yr REAL NOT NULL,
  pm_dec_mas_yr REAL NOT NULL,
  parallax_mas REAL NOT NULL,
  magnitude REAL NOT NULL,
  bv REAL,
  constellation TEXT NOT NULL
) STRICT;
CREATE INDEX star_by_magnitude ON star (magnitude);
CREATE INDEX star_by_declination ON star (dec_deg, magnitude, ra_deg);

-- The number of an entry is its rank in search: outreach objects first, then stars from bright to faint.
CREATE TABLE entry (
  id INTEGER PRIMARY KEY,
  key TEXT NOT NULL UNIQUE,
  name TEXT NOT NULL,
  kind TEXT NOT NULL,
  constellation TEXT,
  magnitude REAL,
  ra_deg REAL,
  dec_deg REAL,
  others TEXT NOT NULL, -- its other names, parted by semicolons
  show TEXT
) STRICT;
CREATE TABLE alias (
  folded TEXT PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id)
) STRICT, WITHOUT ROWID;
CREATE VIRTUAL TABLE entry_text USING fts5 (
  name, other, topics, content = '', tokenize = "unicode61 remove_diacritics 2 tokenchars '|'"
);
-- The words of entry_text: what a mistyped word may stand for.
CREATE TABLE spelling (word TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
-- What languages call a kind or, by its code, a constellation: folded, in the order of the number.
CREATE TABLE topic (
  id INTEGER PRIMARY KEY,
  about TEXT NOT NULL,
  phrase TEXT NOT NULL,
  UNIQUE (about, phrase)
) STRICT;
-- What tells nothing in a question: in, of.
CREATE TABLE small_word (word TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;

-- What a language says for a name or a short text of the catalogue.
CREATE TABLE local_name (
  language TEXT NOT NULL,
  name TEXT NOT NULL,
  called TEXT NOT NULL,
  source TEXT NOT NULL,
  PRIMARY KEY (language, name)
) STRICT, WITHOUT ROWID;

CREATE TABLE story (
  key TEXT NOT NULL,
  language TEXT NOT NULL,
  see TEXT NOT NULL,
  look_for TEXT NOT NULL,
  how TEXT NOT NULL,
  compare TEXT NOT NULL,
  answer TEXT NOT NULL,
  children TEXT NOT NULL,
  more TEXT NOT NULL,
  sources TEXT NOT NULL,
  PRIMARY KEY (key, language)
) STRICT, WITHOUT ROWID;

CREATE TABLE world_event (
  language TEXT NOT NULL,
  from_year INTEGER NOT NULL,
  to_year INTEGER NOT NULL,
  what TEXT NOT NULL,
  place TEXT NOT NULL,
  source TEXT NOT NULL
) STRICT;

-- The number of a place is its rank in search: larger towns first.
CREATE TABLE place (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  country TEXT NOT NULL,
  region TEXT NOT NULL,
  latitude_deg REAL NOT NULL,
  longitude_deg REAL NOT NULL,
  height_m REAL NOT NULL,
  zone TEXT NOT NULL
) STRICT;
CREATE TABLE place_name (
  folded TEXT NOT NULL,
  place_id INTEGER NOT NULL REFERENCES place (id),
  PRIMARY KEY (folded, place_id)
) STRICT, WITHOUT ROWID;
CREATE VIRTUAL TABLE place_text USING fts5 (
  name, other, content = '', tokenize = "unicode61 remove_diacritics 2 tokenchars '|'"
);

CREATE TABLE constellation (
  code TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  genitive TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE constellation_line (
  id INTEGER PRIMARY KEY,
  constellation TEXT NOT NULL REFERENCES constellation (code),
  hips TEXT NOT NULL
) STRICT;
CREATE TABLE constellation_boundary (
  part INTEGER NOT NULL,
  point INTEGER NOT NULL,
  first TEXT NOT NULL REFERENCES constellation (code),
  second TEXT NOT NULL REFERENCES constellation (code),
  ra_deg REAL NOT NULL,
  dec_deg REAL NOT NULL,
  PRIMARY KEY (part, point)
) STRICT, WITHOUT ROWID;
