import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { csvText } from '../../server/web/csv.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { tagsOf } from '../support/html-elements.ts'
import { typedRounds } from '../support/typed-round.ts'

const SEED = Number(process.env.SEED ?? 20261217)
let rounds: Awaited<ReturnType<typeof typedRounds>>
beforeAll(async () => {
  rounds = await typedRounds('quick pages')
}, SLOW_MS)
afterAll(() => rounds.close())

describe('what people type', () => {
  it(`stays text on every page (SEED=${SEED})`, async () => {
    const kept = rounds.targets.flatMap((target) => [...target.kept.keys()])
    expect(kept).toEqual(
      expect.arrayContaining(['title', 'stations.0.operator', 'school', 'access', 'lookFor', 'improve']),
    )
    const seen = await rounds.round(seededRandom(SEED))
    expect(seen.problems).toEqual([])
    expect(seen.strings).toBeGreaterThanOrEqual(100)
  })

  it('is read as browsers read it, so that an element in it would be found', () => {
    const found = (html: string) => tagsOf(html).map(({ name, attributes }) => [name, ...attributes.keys()].join(' '))
    expect(found('<p>&lt;zq&gt; < zq <!-- <zq> --></p>')).toEqual(['p', 'p'])
    expect(found('<p title=a"><zq x=1>')).toEqual(['p title', 'zq x'])
    expect(found('<i a="x>" b=\'"\' onload=y>')).toEqual(['i a b onload'])
    expect(found('<textarea><zq></textarea><script>"<zq>"</script><ZQ/>')).toEqual([
      'textarea',
      'textarea',
      'script',
      'script',
      'zq',
    ])
  })

  it('is no formula in a list', () => {
    expect(csvText([['=1+1', '@x', '+1', '-1+2', '\t=1', -1]])).toBe(`"'=1+1","'@x","'+1","'-1+2","'\t=1",-1\r\n`)
  })
})
