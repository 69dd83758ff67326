import type { Database } from 'better-sqlite3'
import { csvRows } from './csv.ts'
import { barred, foldText, joined } from './fold.ts'

/** Fills the tables of the gazetteer, larger towns first. A town without a known height counts as 0 m. */
export function buildPlaces(db: Database): void {
  const countries = new Intl.DisplayNames('en', { type: 'region' })
  const add = db.prepare('INSERT INTO place VALUES (?, ?, ?, ?, ?, ?, ?, ?)')
  const addName = db.prepare('INSERT OR IGNORE INTO place_name (folded, place_id) VALUES (?, ?)')
  const addText = db.prepare('INSERT INTO place_text (rowid, name, other) VALUES (?, ?, ?)')
  const fold = remembering(foldText)
  const countryOf = remembering((code: string) => countries.of(code) ?? code)
  for (const [id, row] of [...csvRows('places.csv')].sort(byPeople).entries()) {
    const [name = '', others = '', code = '', region = '', regionCode = '', latitude, longitude, heightM, zone] = row
    const country = countryOf(code)
    add.run(id, name, country, region, Number(latitude), Number(longitude), Number(heightM), zone)
    const spellings = [name, ...others.split('|')].map(foldText)
    for (const spelling of spellings) {
      if (spelling !== '') addName.run(joined(spelling), id)
    }
    const apart = /['’]/.test(name) ? foldText(name.replace(/['’]/g, ' ')) : ''
    const [folded = '', ...otherwise] = spellings
    addText.run(id, folded, barred([...otherwise, apart, ...[region, regionCode, country, code].map(fold)]))
  }
}

const PEOPLE = 9

const byPeople = (a: readonly string[], b: readonly string[]): number => Number(b[PEOPLE]) - Number(a[PEOPLE])

/** The same answers, worked out once for each text: regions and countries come up thousands of times. */
function remembering(answer: (text: string) => string): (text: string) => string {
  const known = new Map<string, string>()
  return (text) => {
    const kept = known.get(text) ?? answer(text)
    known.set(text, kept)
    return kept
  }
}
