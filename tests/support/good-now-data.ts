import type { GoodNow, NowLine } from '../../server/tours/good-now.ts'
import { A_CHECK, A_LINE } from './page-data.ts'

const SETUP = { tubeId: 'tube-1', eyepieceId: 'eyepiece-1', powerX: 48, trueFieldDeg: 1.1 }

/** A thing in the open that nothing speaks against. */
const A_NOW_LINE: NowLine = { ...A_LINE, setups: [SETUP], chance: 0.9, worth: 0.6, but: null }

/** Two things that could be shown, and three that were asked for: in the open, taken, and not up yet. */
export const A_GOOD_NOW: GoodNow = {
  at: A_CHECK.at,
  on: A_NOW_LINE,
  lines: [
    { ...A_NOW_LINE, targetKey: 'saturn' },
    { ...A_NOW_LINE, targetKey: 'moon', aim: 'close', untilAt: null, cause: null, minutesLeft: null, group: 'good' },
  ],
  asked: [
    { ...A_NOW_LINE, but: { code: 'now.taken', values: { station: 'Under the lamp' } } },
    { ...A_NOW_LINE, targetKey: 'vega', but: { code: 'now.barred' } },
    {
      ...A_NOW_LINE,
      targetKey: 'm42',
      group: 'coming',
      untilAt: null,
      fromAt: new Date('2026-11-20T20:10:00Z'),
      minutesLeft: null,
      worth: 0,
    },
    { ...A_NOW_LINE, targetKey: 'm57', group: 'gone', untilAt: null, altitudeDeg: -4, minutesLeft: null, worth: 0 },
  ],
  note: null,
}

/** Nothing at all. */
export const NOTHING_NOW: GoodNow = { at: A_CHECK.at, on: null, lines: [], asked: [], note: { code: 'now.nothing' } }
