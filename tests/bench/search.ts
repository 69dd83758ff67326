import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { attachCatalogue, ensureCatalogue } from '../../db/catalogue/load.ts'
import { readOutreach } from '../../db/catalogue/outreach.ts'
import { constellationRows } from '../../db/catalogue/rows.ts'
import { readTopics, searchWords } from '../../db/catalogue/topic-words.ts'
import { allTopics } from '../../db/catalogue/topics.ts'
import { type ObjectStore, objectStore } from '../../db/objects.ts'
import { openDatabase } from '../../db/open.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { TOPICS } from '../support/catalogue-data.ts'
import { plainSearch } from './baseline-search.ts'
import { medianMs, ROUNDS } from './median.ts'

const QUESTIONS = 200
const LIMIT = 20
const EVERYTHING = 100_000
const ALLOWED_MS = 10

const LETTERS = [...'abcdefghijklmnopqrstuvwxyz']
const AS_TYPED = [
  'hip',
  'hd',
  'ngc',
  'm 1',
  'hip 1',
  'alpha',
  'zeta o',
  '61 cyg',
  'ngc7000',
  'm 13',
  'xyzzy',
  'plaides',
]

/** Letters, numbers, kinds, constellations and their mixture, and every other name of the list, whole and with its third letter left out. */
function questions(outreach: readonly ShowObject[]): readonly string[] {
  const constellations = [...constellationRows().values()]
  const topics = [...allTopics(searchWords(readTopics('en'), []).topics)]
  const mixed = constellations.slice(0, 40).map(({ name }, i) => `${topics[i % topics.length]} in ${name}`)
  const names = outreach.filter((_, i) => i % 2 === 0).flatMap(({ name }) => [name, name.slice(0, 2) + name.slice(3)])
  return [...LETTERS, ...AS_TYPED, ...topics, ...mixed, ...names].slice(0, QUESTIONS)
}

const say = (line: string): void => console.log(`search: ${line}`)

/** Compares the search with a look through every text, first what is found and then the slowest question, and prints both. */
export function benchSearch(outreach: readonly ShowObject[] = readOutreach()): void {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-bench-'))
  const db = openDatabase(folder)
  try {
    attachCatalogue(
      db,
      ensureCatalogue(folder, { outreach, stories: [], events: {}, names: {}, texts: {}, topics: TOPICS }),
    )
    compare(objectStore(db), outreach)
  } finally {
    db.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

function compare(objects: ObjectStore, outreach: readonly ShowObject[]): void {
  const plain = plainSearch(outreach)
  const asked = questions(outreach)
  const others = asked.filter((question) => {
    const theirs = plain(question)
    const ours = objects.search(question, EVERYTHING)
    return ours.length !== theirs.size || ours.some(({ key }) => !theirs.has(key))
  })
  say(
    `${asked.length} questions, ${others.length} with other answers than the plain way${others.map((it) => ` (${it})`).join('')}`,
  )
  if (others.length > 0) throw new Error('search: the results differ, so the times mean nothing')
  const timed = asked
    .map((question) => ({ question, ms: medianMs(() => objects.search(question, LIMIT)) }))
    .sort((a, b) => b.ms - a.ms)
  const [{ question, ms } = { question: '', ms: Number.NaN }] = timed
  const plainMs = medianMs(() => plain(question))
  say(`median of ${ROUNDS}: middle question ${(timed[timed.length >> 1]?.ms ?? Number.NaN).toFixed(2)} ms`)
  say(
    `slowest "${question}" ${ms.toFixed(2)} ms (demand ${ALLOWED_MS}), the plain way ${plainMs.toFixed(0)} ms, ` +
      `${(plainMs / ms).toFixed(0)} times as long${ms > ALLOWED_MS ? ': TOO SLOW on this machine' : ''}`,
  )
}
