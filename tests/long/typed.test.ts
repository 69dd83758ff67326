import { existsSync } from 'node:fs'
import { expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'
import { typedBrowser } from '../support/typed-browser.ts'
import { typedRounds } from '../support/typed-round.ts'

const COUNT = Number(process.env.COUNT ?? 10_000)
const SEED = Number(process.env.SEED ?? 20261217)
const ENOUGH = 10_000
/** Of the strings, this part is typed once more with every page open in a browser. */
const BROWSER_PART = 0.1

it(`${COUNT} strings stay text on every page, list and answer (SEED=${SEED})`, async () => {
  const rounds = await typedRounds('every page')
  const random = seededRandom(SEED)
  const problems: string[] = []
  let [strings, pages] = [0, 0]
  try {
    while (strings < COUNT) {
      const seen = await rounds.round(random)
      problems.push(...seen.problems)
      strings += seen.strings
      pages += seen.pages
      console.log(`${strings} strings, ${pages} answers, ${problems.length} problems`)
    }
  } finally {
    await rounds.close()
  }
  const reached = `${strings} strings, ${pages} answers read as browsers do, ${problems.length} problems`
  const isReached = strings >= ENOUGH && problems.length === 0
  recordRow({ row: 15, part: 'read', reached, isReached, seed: SEED, count: strings })
  expect([...new Set(problems)]).toEqual([])
})

it.skipIf(!existsSync(CHROMIUM))(`stay text in Chromium, which runs and asks nothing (SEED=${SEED})`, async () => {
  const browser = await launch()
  const opened = await typedBrowser(browser)
  const random = seededRandom(SEED + 1)
  const problems: string[] = []
  let [strings, documents] = [0, 0]
  let harm: readonly string[] = []
  try {
    while (strings < COUNT * BROWSER_PART) {
      const seen = await opened.round(random)
      problems.push(...seen.problems)
      strings += seen.strings
      documents += seen.documents
      console.log(`In Chromium: ${strings} strings, ${documents} documents, ${problems.length} problems`)
    }
    harm = await opened.harmed()
  } finally {
    await browser.close()
    await opened.close()
  }
  const reached = `${strings} strings, ${documents} documents: ${problems.length} other elements, refusals by the policy, dialogues, errors or requests elsewhere`
  const isReached = strings >= ENOUGH * BROWSER_PART && problems.length === 0
  recordRow({ row: 15, part: 'in Chromium', reached, isReached, seed: SEED + 1, count: strings })
  expect([...new Set(problems)]).toEqual([]) // Harm that is there is seen.
  for (const sign of [/^zq\[\]/, /onerror/, /refused script-src-attr/, /asks http:\/\/zq/, /a dialogue/]) {
    expect(harm.join('\n')).toMatch(new RegExp(sign, 'm'))
  }
})
