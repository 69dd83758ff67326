import { describe, expect, it } from 'vitest'
import { demoNight } from '../support/demo-night.ts'
import { builtOn, eveningOf } from '../support/evenings.ts'

const TWINS = 'station-3'
const evening = eveningOf(demoNight)
const { chance } = evening
const { stops } = builtOn(evening, 20_000)
const atTwins = stops.filter(({ stationId }) => stationId === TWINS)

describe('the mount with two tubes', () => {
  it('gets an eyepiece for each tube, a wide look and a close one, and no eyepiece twice', () => {
    const pairs = atTwins.filter(({ setups }) => setups.length === 2)
    expect(pairs.length).toBeGreaterThan(0)
    for (const { setups } of pairs) {
      expect(new Set(setups.map(({ tubeId }) => tubeId)).size).toBe(2)
      expect(new Set(setups.flatMap(({ eyepieceId }) => eyepieceId.split('*'))).size).toBe(
        setups.flatMap(({ eyepieceId }) => eyepieceId.split('*')).length,
      )
      const [first = 0, second = 0] = setups.map(({ trueFieldDeg }) => trueFieldDeg)
      expect(Math.max(first / second, second / first)).toBeGreaterThanOrEqual(1.4)
    }
  })

  it('says which is the wide look, or that one tube stays capped', () => {
    for (const { setups, reasons } of atTwins) {
      const [first, second] = setups
      const isWideFirst = (first?.trueFieldDeg ?? 0) > (second?.trueFieldDeg ?? 0)
      const code = !second ? 'tour.one-tube' : isWideFirst ? 'tour.tubes-wide-first' : 'tour.tubes-close-first'
      expect(reasons.map((reason) => reason.code)).toContain(code)
    }
  })

  it('is the only one with a second look', () => {
    for (const { stationId, setups } of stops) if (stationId !== TWINS) expect(setups).toHaveLength(1)
    const size = chance.candidates.length
    expect(chance.besides.slice(0, chance.stationIds.indexOf(TWINS) * size).every((one) => one === null)).toBe(true)
  })
})
