import { describe, expect, it } from 'vitest'
import { aloudSheet } from '../../server/web/pages/aloud-sheet.ts'
import { checkSheet } from '../../server/web/pages/check-sheet.ts'
import { classCloud } from '../../server/web/pages/class-cloud.ts'
import { classLetter } from '../../server/web/pages/class-letter.ts'
import { runSheet } from '../../server/web/pages/run-sheet.ts'
import { sourceText } from '../../server/web/pages/say.ts'
import { skyPiece } from '../../server/web/pages/sky.ts'
import { thinCloudPiece } from '../../server/web/pages/thin-cloud.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { AN_EVENING, ENGLISH, GERMAN, HOST } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'

const { night, tour } = A_FULL_PRINT
const IN_GERMAN = { ...HOST, words: GERMAN }
const DAY = 'Friday 20 November 2026'

describe('every part that comes loose', () => {
  it('says of which evening it is', () => {
    const named = `${night.title}, ${DAY}`
    expect(classLetter(HOST, A_FULL_PRINT).slip.night).toBe(named)
    expect(classCloud(HOST, A_FULL_PRINT).night).toBe(named)
    expect(thinCloudPiece(HOST, A_FULL_PRINT).version).toBe(`${named}. Programme version ${tour.version}.`)
    expect(checkSheet(HOST, A_FULL_PRINT).day).toBe('20 November')
  })
})

describe('the whole sky on paper', () => {
  it('names every number that stands on the chart', () => {
    expect(skyPiece(HOST, A_FULL_PRINT).key).toEqual([{ number: '1', name: 'Great cluster in Hercules' }])
    expect(skyPiece(HOST, { ...A_FULL_PRINT, tour: { ...tour, stops: [] } }).key).toEqual([])
  })
})

describe('where a value comes from', () => {
  it('is said as readers understand it, and one that was not looked up never seems to be', () => {
    expect(sourceText(ENGLISH, 'RC3')).toBe('RC3')
    expect(sourceText(ENGLISH, 'from memory')).toBe('not checked')
    expect(sourceText(ENGLISH, 'GCVS, from memory')).toBe('GCVS, not checked')
    expect(sourceText(ENGLISH, 'Harris 2010, its per cent from memory')).toBe('Harris 2010, its per cent not checked')
    expect(sourceText(GERMAN, 'from memory')).toBe('nicht geprüft')
  })
})

describe('letters', () => {
  it('are smaller in a table of long words, so that it stays on one page', () => {
    expect(aloudSheet(HOST, A_FULL_PRINT).isDense).toBe(false)
    expect(aloudSheet(IN_GERMAN, A_FULL_PRINT).isDense).toBe(true)
  })

  it('are larger on a run sheet of as many lines as its paper holds, and A4 holds one more where nothing is unusual', () => {
    const [stop] = tour.stops
    if (!stop) throw new Error('The night of the tests has a stop')
    const dense = (lines: number, paper: 'a4' | 'letter', isStale = false, viewer = HOST) =>
      runSheet(viewer, {
        ...A_FULL_PRINT,
        night: A_NIGHT,
        evening: { ...AN_EVENING, astronomicalDuskAt: new Date('2026-11-20T17:20:00Z') },
        isStale,
        beside: [],
        tour: { ...tour, stops: Array.from({ length: lines }, () => stop) },
        look: { paper },
      }).isDense
    expect(dense(8, 'a4', true)).toBe(true)
    expect(dense(8, 'a4', false, IN_GERMAN)).toBe(true)
    expect([dense(7, 'letter'), dense(8, 'letter'), dense(8, 'a4'), dense(9, 'a4')]).toEqual([false, true, false, true])
  })

  it('are larger where few lines are shown through thin cloud', () => {
    expect(thinCloudPiece(HOST, A_FULL_PRINT).isRoomy).toBe(true)
    const [stop] = A_FULL_PRINT.thin.stops
    if (!stop) throw new Error('Thin cloud leaves a stop in the tests')
    const stops = Array.from({ length: 11 }, () => stop)
    expect(thinCloudPiece(HOST, { ...A_FULL_PRINT, thin: { ...A_FULL_PRINT.thin, stops } }).isRoomy).toBe(false)
  })
})
