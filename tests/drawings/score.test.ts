import { describe, expect, it } from 'vitest'
import {
  eveningScore,
  SCORE_HEIGHT_MM,
  SCORE_WIDTH_MM,
  type ScoreSheet,
  type ScoreSubject,
} from '../../server/drawings/score.ts'
import { type Box, overlaps } from '../../server/drawings/word-box.ts'
import { wallClock } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { generatedNight } from '../support/generated-nights.ts'
import { ENGLISH } from '../support/page-data.ts'
import { A_THIRD, crowded, emptyScore, LONG_NAME, scoredNight } from '../support/score-data.ts'

const demo = scoredNight(demoNight)
const south = scoredNight(southernNight)
const alone = (subject: ScoreSubject): ScoreSubject => {
  const stations = subject.night.stations.slice(0, 1)
  const stops = subject.stops.filter(({ stationId }) => stationId === stations[0]?.id)
  return { ...subject, night: { ...subject.night, stations }, stops }
}
const moved = (night: Night, given: Partial<Night>, latitudeDeg: number): Night => ({
  ...night,
  ...given,
  site: { ...night.site, latitudeDeg },
})
const polar = emptyScore(moved(demoNight, { date: '2027-06-21' }, 70))
const clockChange = emptyScore(moved(demoNight, { date: '2026-10-24', opens: '21:00', closes: '04:00' }, 47))
const onLetter = (subject: ScoreSubject): ScoreSubject => ({ ...subject, widthMm: SCORE_WIDTH_MM.letter })
const longNamed = (subject: ScoreSubject): ScoreSubject => ({ ...subject, nameOf: () => LONG_NAME })

const CASES: readonly (readonly [string, ScoreSubject])[] = [
  ['the demo night', demo],
  ['the southern night on Letter', onLetter(south)],
  ...Array.from({ length: 12 }, (_, i) => [`night ${i}`, scoredNight(generatedNight(i), A_THIRD)] as const),
  ['twelve stations and forty stops', crowded(demo, 12, 40)],
  ['twelve stations and forty stops on Letter', onLetter(crowded(demo, 12, 40))],
  ['names of sixty letters', longNamed(demo)],
  ['forty names of sixty letters on Letter', onLetter(longNamed(crowded(demo, 12, 40)))],
  ['forty stops at one station', crowded(demo, 1, 40)],
  ['forty long names at one station', longNamed(crowded(demo, 1, 40))],
  ['no stops', emptyScore(demoNight)],
  ['one telescope', alone(demo)],
  ['a polar summer', polar],
  ['a clock change', clockChange],
]

/** Every word on a sheet with its place on the paper. */
function wordsOn({ staves, barLines, ticks, about }: ScoreSheet): Box[] {
  const onStaves = staves.flatMap(({ lineMm, label, words, notes, leaves }) =>
    [...label, words, ...notes.flatMap(({ name, looks }) => [name, looks]), ...leaves.map(({ word }) => word)].flatMap(
      (box) => (box ? [{ ...box, y1: box.y1 + lineMm, y2: box.y2 + lineMm }] : []),
    ),
  )
  return [...about, ...barLines.map(({ word }) => word), ...ticks.flatMap(({ word }) => word ?? []), ...onStaves]
}

describe.each(CASES)('the score of %s', (_, subject) => {
  const { sheets } = eveningScore(subject, ENGLISH)

  it('has every stop under its full name, from its start to its end, in letters of 12 points and more', () => {
    for (const stop of subject.stops) {
      const notes = sheets.flatMap((sheet) =>
        sheet.staves.flatMap((staff) =>
          staff.notes.filter((note) => note.stop === stop).map((note) => ({ sheet, note })),
        ),
      )
      expect(notes.length).toBeGreaterThan(0)
      for (const { sheet, note } of notes) {
        expect(note.name.lines.join(' ')).toBe(subject.nameOf(stop))
        expect(note.name.sizePt).toBeGreaterThanOrEqual(12)
        if (stop.startsAt >= sheet.fromAt) expect(note.x1).toBeCloseTo(sheet.xOf(stop.startsAt), 6)
        if (stop.endsAt <= sheet.toAt) expect(note.x2).toBeCloseTo(sheet.xOf(stop.endsAt), 6)
      }
    }
  })

  it('is linear in time to a tenth of a millimetre', () => {
    for (const { xOf, fromAt, toAt, widthMm, barLines, ticks } of sheets) {
      const mmPerMs = (xOf(toAt) - xOf(fromAt)) / (toAt.getTime() - fromAt.getTime())
      expect(xOf(toAt)).toBeLessThanOrEqual(widthMm)
      for (const { at, x } of [...barLines, ...ticks]) {
        expect(Math.abs(x - xOf(fromAt) - mmPerMs * (at.getTime() - fromAt.getTime()))).toBeLessThan(0.1)
      }
    }
  })

  it('sets no word upon another, and none beyond the paper', () => {
    for (const sheet of sheets) {
      expect(sheet.heightMm).toBeLessThanOrEqual(SCORE_HEIGHT_MM + 0.01)
      const words = wordsOn(sheet)
      for (const [i, word] of words.entries()) {
        const said = word.lines.join(' ')
        expect(word.x1 >= 0 && word.x2 <= sheet.widthMm && word.y1 >= -0.01 && word.y2 <= sheet.heightMm, said).toBe(
          true,
        )
        const under = words.slice(i + 1).filter((other) => overlaps(word, other, -0.01))
        expect(under.map(({ lines }) => `${said} / ${lines.join(' ')}`)).toEqual([])
      }
    }
  })

  it('is black on white, and every station is on it once in each part of the evening', () => {
    expect(sheets.map(({ svg }) => svg).join('')).not.toMatch(/opacity|style=|NaN|undefined|#[0-9a-f]{3}/)
    const parts = new Set(sheets.map(({ fromAt }) => fromAt.getTime())).size
    const ids = sheets.flatMap(({ staves }) => staves.map(({ stationId }) => stationId))
    expect(ids.toSorted()).toEqual(subject.night.stations.flatMap(({ id }) => Array<string>(parts).fill(id)).toSorted())
  })
})

describe('what holds for the whole row', () => {
  it('draws what changes at one time at one place, and the doors at their hours', () => {
    const [sheet] = eveningScore(demo, ENGLISH).sheets
    const opens = sheet?.staves.flatMap(({ notes }) => notes.filter(({ stop }) => stop.startsAt.getTime() === opensMs))
    expect(new Set(opens?.map(({ x1 }) => x1)).size).toBe(1)
    expect(opens?.length).toBeGreaterThan(2)
    const doors = sheet?.barLines.filter(({ code }) => code === 'opens' || code === 'closes') ?? []
    expect(doors.map(({ word }) => word.lines.join(' '))).toEqual(['Doors open 18:00', 'Doors close 21:00'])
  })
  const opensMs = Date.UTC(2026, 11, 17, 17)

  it('shows both looks of a mount with two tubes, and says what two bars are', () => {
    const [sheet] = eveningScore(demo, ENGLISH).sheets
    const looks = sheet?.staves.flatMap(({ notes }) => notes.flatMap((note) => note.looks?.lines ?? [])) ?? []
    expect(looks.length).toBeGreaterThan(0)
    for (const text of looks) expect(text).toMatch(/^\d+× and \d+×$/)
    expect(sheet?.about.map(({ lines }) => lines.join(' '))).toContain('Two bars: two looks')
  })

  it('names an hour that comes twice twice, and says why', () => {
    const [sheet] = eveningScore(clockChange, ENGLISH).sheets
    const twos = sheet?.ticks.filter(({ at }) => wallClock(at, 'Europe/Zurich') === '02:00') ?? []
    expect(twos.length).toBe(2)
    expect(sheet?.barLines.map(({ code }) => code)).toContain('clocks-back')
  })

  it('says that there is no dusk in a polar summer, and takes two sheets for twelve stations', () => {
    const said = eveningScore(polar, ENGLISH).sheets[0]?.about.map(({ lines }) => lines.join(' '))
    expect(said).toContain('The Sun does not set')
    const { sheets } = eveningScore(crowded(demo, 12, 40), ENGLISH)
    expect(sheets.length).toBe(2)
    expect(sheets[1]?.about.map(({ lines }) => lines.join(' '))).toContain('Sheet 2 of 2')
    for (const { svg, staves } of sheets) {
      const notes = staves.reduce((sum, staff) => sum + staff.notes.length, 0)
      expect(notes).toBeLessThan(40)
      expect(/(\d+) stops/.exec(svg)?.[1]).toBe(String(notes))
    }
  })
})
