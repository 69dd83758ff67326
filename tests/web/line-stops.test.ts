import { describe, expect, it } from 'vitest'
import { lineStops } from '../../server/web/pages/line-stops.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_LINE_ANSWER } from '../support/line-data.ts'
import { ENGLISH, NAMES } from '../support/page-data.ts'

const stopsOf = (line = A_LINE_ANSWER) => lineStops(ENGLISH, A_NIGHT, line, 'station-1', NAMES)
/** The same with the line of the first stop closed at another time. */
const closedAt = (time: string) => {
  const { reckoned } = A_LINE_ANSWER
  const [first, ...rest] = reckoned.stops
  if (!first) throw new Error('no stop')
  const stops = [{ ...first, closeAt: new Date(`2026-11-20T${time}Z`) }, ...rest]
  return stopsOf({ ...A_LINE_ANSWER, reckoned: { ...reckoned, stops } })
}

describe('the line of one stop', () => {
  it('is closed at one time, that of the line helper, and no other time is named', () => {
    const [first] = stopsOf()
    expect(first?.close).toBe('Close the line at 19:11: who comes later would not see.')
    expect([...(first?.reckoned ?? []), ...(first?.played ?? [])].join(' ')).not.toMatch(/\d\d:\d\d|[Cc]lose/)
  })

  it('stays open where it would be closed in the last two minutes, and is told of at once where there are too many', () => {
    const shut = (time: string) => closedAt(time)[0]?.close
    expect(shut('18:27:59')).toContain('Close the line at 19:27')
    expect(shut('18:28:00')).toBe('The line can stay open to the end.')
    expect(stopsOf()[1]?.close).toBe('There may be more people than this stop can take: tell them at once.')
  })

  it('tells what came of the evenings that were played', () => {
    expect(stopsOf()[0]?.played).toEqual([
      'Played through: about 60 looks, half of them after less than 6 minutes of waiting.',
    ])
    expect(stopsOf()[1]?.played).toEqual(['Played through: nobody looked.'])
  })
})
