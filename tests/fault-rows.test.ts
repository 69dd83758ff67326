import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { promised, type Recorded, rowTable } from './support/fault-rows.ts'
import { PROMISES } from './support/fault-table.ts'

const seen = (commit: string): Recorded => ({
  row: 4,
  reached: '100,000 taps',
  isReached: true,
  seed: 7,
  count: 100_000,
  asked: '',
  commit,
})
const tableOf = (row: number, recorded: readonly Recorded[]) =>
  rowTable([promised(row)], () => recorded, 'present')
    .split('\n')
    .at(-1)

describe('the table of promises', () => {
  it('has its twenty rows, each with files that are there', () => {
    expect(PROMISES.map(({ row }) => row)).toEqual(Array.from({ length: 20 }, (_, place) => place + 1))
    const files = PROMISES.flatMap((promise) => promise.files)
    expect(files.filter((file) => !existsSync(join(import.meta.dirname, file)))).toEqual([])
  })

  it('names every long test that records a row', () => {
    const recording = readdirSync(join(import.meta.dirname, 'long'), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.test.ts'))
      .filter((name) => readFileSync(join(import.meta.dirname, 'long', name), 'utf8').includes('recordRow('))
    const named = new Set(PROMISES.flatMap(({ files }) => files))
    expect(recording.filter((name) => !named.has(`long/${name}`))).toEqual([])
  })

  it('shows what was reached at this commit, and nothing of another', () => {
    expect(tableOf(4, [seen('present')])).toContain('| yes: 100,000 taps | 7, 100000, present |')
    expect(tableOf(4, [seen('earlier')])).toContain('| not run |  |')
    expect(tableOf(4, [{ ...seen('present'), isReached: false, part: 'drills' }])).toContain('| NO: drills: 100,000')
  })

  it('says where no test exists yet', () => {
    const untested = PROMISES.find(({ files }) => files.length === 0)
    if (untested) expect(tableOf(untested.row, [])).toContain('| no test yet |')
    expect(() => promised(21)).toThrow('row 21')
  })
})
