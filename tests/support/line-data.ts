import type { LineAnswer } from '../../server/desk/desk.ts'
import { notFound } from '../../server/errors.ts'

const at = (text: string): Date => new Date(`2026-11-20T${text}Z`)

/** The line of the night of the tests: one telescope, two stops, the second for nobody. */
export const A_LINE_ANSWER: LineAnswer = {
  version: 1,
  seed: 7,
  reckoned: {
    looksInStay: 2.4,
    stops: [
      {
        stationId: 'station-1',
        targetKey: 'm13',
        startsAt: at('17:30:00'),
        endsAt: at('18:30:00'),
        turnSec: 57,
        looksPerHour: 63.2,
        stopMin: 60,
        inLine: 20,
        waitMin: 18.8,
        closeAt: at('18:11:00'),
      },
      {
        stationId: 'station-1',
        targetKey: 'm13',
        startsAt: at('18:30:00'),
        endsAt: at('18:45:00'),
        turnSec: 57,
        looksPerHour: 63.2,
        stopMin: 15,
        inLine: 20,
        waitMin: 18.8,
        closeAt: at('18:30:00'),
      },
    ],
  },
  simulated: {
    evenings: 20,
    visitors: 71.2,
    looks: 60.4,
    looksFrom: 57,
    looksTo: 63,
    looksByStation: [{ stationId: 'station-1', looks: 60.4 }],
    looksByTarget: [{ targetKey: 'm13', looks: 60.4 }],
    waitMedianMin: 5.4,
    wait95Min: 14.2,
    gaveUp: 3.1,
    sawAtLeast: [
      { things: 1, visitors: 60.4 },
      { things: 2, visitors: 0 },
      { things: 3, visitors: 0 },
      { things: 5, visitors: 0 },
    ],
    sawNothingShare: 0.15,
    halfHours: [
      { fromSec: 0, people: 35, longest: { stationId: 'station-1', people: 18.4 } },
      { fromSec: 1800, people: 12, longest: null },
    ],
    stops: [
      {
        stationId: 'station-1',
        targetKey: 'm13',
        fromSec: 0,
        untilSec: 3600,
        looks: 60.4,
        closeSec: 2400,
        waitMedianMin: 5.4,
      },
      {
        stationId: 'station-1',
        targetKey: 'm13',
        fromSec: 3660,
        untilSec: 4500,
        looks: 0,
        closeSec: 4440,
        waitMedianMin: null,
      },
    ],
  },
}
/** A row that shows nothing. */
export const AN_EMPTY_LINE: LineAnswer = {
  version: 2,
  seed: 7,
  reckoned: { looksInStay: null, stops: [] },
  simulated: {
    ...A_LINE_ANSWER.simulated,
    visitors: 0,
    looks: 0,
    looksFrom: 0,
    looksTo: 0,
    looksByStation: [{ stationId: 'station-1', looks: 0 }],
    looksByTarget: [],
    waitMedianMin: null,
    wait95Min: null,
    gaveUp: 0,
    sawAtLeast: [],
    sawNothingShare: 0,
    halfHours: [],
    stops: [],
  },
}

/** As a desk answers it: not without a programme. */
export function lineOf(tours: readonly unknown[]): LineAnswer {
  if (tours.length === 0) throw notFound('tour')
  return A_LINE_ANSWER
}
