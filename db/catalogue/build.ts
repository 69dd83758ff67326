import type { Database } from 'better-sqlite3'
import type { WorldEvent } from '../../server/tours/light-left.ts'
import type { ShowObject, Story } from '../../server/tours/target.ts'
import { buildEntries } from './build-entries.ts'
import { buildPlaces } from './build-places.ts'
import { catalogueText, csvRows } from './csv.ts'
import type { LocalName } from './local-names.ts'
import { constellationRows, type StarRow, starNames, starRows } from './rows.ts'
import { searchWords, type TopicRow } from './topic-words.ts'
import type { Topics } from './topics.ts'

/** What people write for the catalogue, beside its star and place tables. */
export interface Written {
  readonly outreach: readonly ShowObject[]
  readonly stories: readonly Story[]
  /** What happened on Earth, by language. */
  readonly events: Readonly<Record<string, readonly WorldEvent[]>>
  /** What things are called, and what is said of them in short, by language. */
  readonly names: Readonly<Record<string, readonly LocalName[]>>
  readonly texts: Readonly<Record<string, readonly LocalName[]>>
  /** By what words people look for kinds of things and for constellations, by language. */
  readonly topics: Readonly<Record<string, readonly TopicRow[]>>
}

// Enough for the whole text index, so that it is written once instead of being merged from parts.
const TEXT_INDEX_BYTES = 64n * 1024n * 1024n

/** Fills an empty database with the whole catalogue in one transaction. */
export function buildCatalogue(db: Database, written: Written, digest: string): void {
  const stars = starRows()
  const constellations = constellationRows()
  db.transaction(() => {
    db.exec(catalogueText('schema.sql'))
    for (const text of ['entry_text', 'place_text']) {
      db.prepare(`INSERT INTO ${text} (${text}, rank) VALUES ('hashsize', ?)`).run(TEXT_INDEX_BYTES)
    }
    buildStars(db, [...stars.values()])
    buildConstellations(db, [...constellations.values()])
    const localNames = Object.values(written.names).flat()
    const { topics, small } = searchWords(Object.values(written.topics).flat(), constellations.values())
    buildEntries(db, { stars, names: starNames(), localNames, topics, constellations, outreach: written.outreach })
    buildSearchWords(db, topics, small)
    buildStories(db, written.stories)
    for (const [language, events] of Object.entries(written.events)) buildEvents(db, language, events)
    for (const texts of [written.names, written.texts])
      for (const [language, rows] of Object.entries(texts)) buildNames(db, language, rows)
    buildPlaces(db)
    db.prepare('INSERT INTO meta (digest) VALUES (?)').run(digest)
  })()
}

function buildStars(db: Database, stars: readonly StarRow[]): void {
  const add = db.prepare(
    `INSERT INTO star VALUES (@hip, @raDeg, @decDeg, @pmRaMasYr, @pmDecMasYr, @parallaxMas, @magnitude, @bv, @constellation)`,
  )
  for (const star of stars) add.run(star)
}

function buildConstellations(db: Database, constellations: readonly object[]): void {
  const add = db.prepare('INSERT INTO constellation VALUES (@code, @name, @genitive)')
  for (const constellation of constellations) add.run(constellation)
  const addLine = db.prepare('INSERT INTO constellation_line (constellation, hips) VALUES (?, ?)')
  for (const [constellation, hips] of csvRows('lines.csv')) addLine.run(constellation, hips)
  const addPoint = db.prepare(
    'INSERT INTO constellation_boundary (first, second, part, point, ra_deg, dec_deg) VALUES (?, ?, ?, ?, ?, ?)',
  )
  for (const [first, second, ...numbers] of csvRows('boundaries.csv')) {
    addPoint.run(first, second, ...numbers.map(Number))
  }
}

function buildSearchWords(db: Database, topics: Topics, small: ReadonlySet<string>): void {
  const add = db.prepare('INSERT INTO topic (about, phrase) VALUES (?, ?)')
  for (const [about, phrases] of topics) for (const phrase of new Set(phrases)) add.run(about, phrase)
  const addSmall = db.prepare('INSERT INTO small_word VALUES (?)')
  for (const word of small) addSmall.run(word)
}

function buildEvents(db: Database, language: string, events: readonly WorldEvent[]): void {
  const add = db.prepare('INSERT INTO world_event VALUES (@language, @fromYear, @toYear, @what, @place, @source)')
  for (const event of events) add.run({ ...event, language })
}

function buildNames(db: Database, language: string, names: readonly LocalName[]): void {
  const add = db.prepare('INSERT INTO local_name VALUES (@language, @name, @called, @source)')
  for (const name of names) add.run({ ...name, language })
}

function buildStories(db: Database, stories: readonly Story[]): void {
  const add = db.prepare(
    'INSERT INTO story VALUES (@key, @language, @see, @lookFor, @how, @compare, @answer, @children, @more, @sources)',
  )
  for (const story of stories) add.run({ ...story, sources: JSON.stringify(story.sources) })
}
