import { Value } from 'typebox/value'
import type { Desk, EveningAnswer, SkyPlaceAnswer } from '../../server/desk/desk.ts'
import { draftProblems, inside } from '../../server/desk/mark-problems.ts'
import { readingDesk } from '../../server/desk/reading.ts'
import { invalid, notFound } from '../../server/errors.ts'
import type { BodyLook } from '../../server/sky/body.ts'
import { isDay } from '../../server/tours/hours.ts'
import { type Mark, MarkDraft } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Site } from '../../server/tours/site.ts'
import type { Telescope } from '../../server/tours/telescope.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { A_PAIR, A_SET_UP } from './alignment-data.ts'
import { A_BESIDE } from './beside-data.ts'
import { fakeDates } from './dates-data.ts'
import { fakeAgain } from './fake-again.ts'
import { fakeBackups } from './fake-backups.ts'
import { fakeCarry } from './fake-carry.ts'
import { fakeCharts } from './fake-charts.ts'
import { fakeGo } from './fake-go.ts'
import { A_HEALTH } from './fake-health.ts'
import { fakeKit, findIn } from './fake-kit.ts'
import { fakeLearning } from './fake-learning.ts'
import { fakeNotes } from './fake-notes.ts'
import { fakeObjects } from './fake-objects.ts'
import { fakeReports } from './fake-reports.ts'
import { fakeSessions } from './fake-sessions.ts'
import { fakeGroupText, settingsInMemory } from './fake-settings.ts'
import { fakeThings } from './fake-things.ts'
import { fakeWishes, type KeptWishes } from './fake-wishes.ts'
import { A_FINDING } from './fault-data.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE, A_TOUR, THE_MOON } from './field-data.ts'
import { A_GOOD_NOW } from './good-now-data.ts'
import { A_HOLE, A_MISSING } from './hole-data.ts'
import { fakeJoins } from './join-data.ts'
import { lineOf } from './line-data.ts'
import { A_SIGHTING } from './sight-data.ts'
import { fakeStart } from './start-data.ts'
import { A_TONIGHT } from './tonight-data.ts'

export const NOW = new Date('2026-11-14T16:00:00Z')
export const PIN = '314159'

/** What a fake desk has been told, so that a test can see that nothing was. */
export interface Kept extends KeptWishes {
  readonly sites: Site[]
  readonly telescopes: Telescope[]
  readonly nights: Night[]
  readonly tours: Tour[]
  readonly marks: Mark[]
  readonly tokens: Set<string>
}

const firstKept = (): Kept => ({
  sites: [A_SITE],
  telescopes: [A_TELESCOPE],
  nights: [A_NIGHT],
  tours: [A_TOUR],
  marks: [],
  wishes: [],
  tokens: new Set(['a-living-session']),
})

/** A desk over plain data in memory: it refuses what a real one refuses, and knows one site, telescope, night and object. */
export function fakeDesk(kept: Kept = firstKept()): { desk: Desk; kept: Kept } {
  const kit = fakeKit(kept, NOW)
  return {
    kept,
    desk: {
      ...kit,
      ...skyPart(),
      ...fieldPart(kept),
      things: fakeThings(kit.sites),
      start: fakeStart(kit.nights),
      dates: fakeDates(kit.sites),
      again: fakeAgain(kept, NOW, (id) => findIn(kept.nights, id, 'night')),
      wishes: fakeWishes(kept, (id) => findIn(kept.nights, id, 'night')),
      learning: fakeLearning((id) => findIn(kept.sites, id, 'site'), NOW),
      sessions: fakeSessions(kept.tokens, PIN),
      joins: fakeJoins,
      backups: fakeBackups(),
      groupText: fakeGroupText(),
      reading: readingDesk({ settings: settingsInMemory() }),
      go: fakeGo(kept, (id) => findIn(kept.nights, id, 'night'), NOW),
      carry: fakeCarry((id) => findIn(kept.nights, id, 'night'), NOW),
      reports: fakeReports(kept, (id) => findIn(kept.nights, id, 'night'), NOW),
      notes: fakeNotes(
        { site: (id) => findIn(kept.sites, id, 'site'), night: (id) => findIn(kept.nights, id, 'night') },
        NOW,
      ),
      charts: fakeCharts((id) => findIn(kept.nights, id, 'night')),
      health: () => ({ ...A_HEALTH, now: NOW }),
      changes: () => performance.now(),
      freeBytes: async () => 120e9,
      close: async () => {},
    },
  }
}

function skyPart(): Pick<Desk, 'objects' | 'own' | 'words' | 'places' | 'sky' | 'sight'> {
  return {
    ...fakeObjects(NOW),
    places: { search: () => [] },
    sky: {
      places: (_at, _place, keys) => keys.map(placeAnswer),
      evening: (date, _place, zone) => ({ ...eveningAt(sunsetOn(date)), date, zone }),
      bodyLook: () => THE_MOON,
    },
    sight: {
      ask(question) {
        if (question.objectKey !== 'm13') throw notFound('object')
        return A_SIGHTING
      },
    },
  }
}

const placeAnswer = (key: string): SkyPlaceAnswer => ({
  key,
  altitudeDeg: 30,
  apparentAltitudeDeg: 30.03,
  azimuthDeg: 280,
  airmass: 2,
  raDeg: 250.4,
  decDeg: 36.5,
  magnitude: null,
  look: null,
  ringTiltDeg: null,
})

/** A Sun that sets at the same time on every day. */
const sunsetOn = (date: string): Date => (isDay(date) ? new Date(`${date}T16:00:00Z`) : NOW)

const eveningAt = (at: Date): Omit<EveningAnswer, 'date' | 'zone'> => ({
  sunsetAt: at,
  civilDuskAt: at,
  nauticalDuskAt: at,
  astronomicalDuskAt: at,
  astronomicalDawnAt: null,
  nauticalDawnAt: null,
  civilDawnAt: null,
  sunriseAt: null,
  moonriseAt: null,
  moonsetAt: null,
  moon: THE_MOON satisfies BodyLook,
  isMoonWaxing: true,
})

type FieldPart =
  | 'tours'
  | 'tonight'
  | 'checks'
  | 'hole'
  | 'goodNow'
  | 'line'
  | 'missing'
  | 'beside'
  | 'alignment'
  | 'faults'
  | 'marks'
function fieldPart(kept: Kept): Pick<Desk, FieldPart> {
  const night = (id: string) => findIn(kept.nights, id, 'night')
  const toursOf = (id: string) => kept.tours.filter((tour) => tour.nightId === night(id).id)
  const check = (id: string, at: Date) => ({ at, lines: [], changes: [], nightId: night(id).id })
  return {
    tours: {
      async build(id) {
        const version = toursOf(id).length + 1
        const tour = { ...A_TOUR, id: `tour-${version}`, nightId: id, version }
        kept.tours.push(tour)
        return tour
      },
      current: (id) => toursOf(id).at(-1),
      version: (id, version) => findIn(toursOf(id), `tour-${version}`, 'tour'),
      stateOf: ({ id, nightId }) => ({ isCurrent: toursOf(nightId).at(-1)?.id === id, isStale: false, waiting: null }),
      find: (id) => findIn(kept.tours, id, 'tour'),
      versions: toursOf,
    },
    tonight: async (id, key, at) => ({ ...A_TONIGHT, targetKey: key, at: at ?? A_TONIGHT.at, nightId: night(id).id }),
    faults: async (id, _at, ask) => ({ ...A_FINDING, answer: night(id) && ask && A_FINDING.answer }),
    alignment: {
      pairs: async (id) => [A_PAIR].filter(() => night(id).id === id),
      outlook: async (id, at) => ({ cause: null, fromAt: at, nightId: night(id).id }),
      setUp: async (id) => ({ ...A_SET_UP, nightId: night(id).id }),
    },
    hole: async (id, open, at) => ({ ...A_HOLE, at, open, nightId: night(id).id }),
    goodNow: async (id, _stationId, at) => ({ ...A_GOOD_NOW, at, nightId: night(id).id }),
    missing: async () => A_MISSING,
    beside: async (id) => A_BESIDE.filter(() => night(id).id === id),
    line: async (id) => lineOf(toursOf(id)),
    checks: { at: async (id, at) => check(id, at), evening: async (id) => [check(id, NOW)] },
    marks: {
      record(id, drafts, by) {
        for (const draft of drafts) {
          if (!Value.Check(MarkDraft, draft)) throw invalid(draftProblems(draft).map((wrong) => inside('0', wrong)))
          if (kept.marks.some(({ key }) => key === draft.key)) continue
          const seq = kept.marks.length + 1
          kept.marks.push({ ...draft, seq, nightId: night(id).id, by, receivedAt: NOW, happenedAt: NOW })
        }
        const keys = drafts.map((draft) => Value.Parse(MarkDraft, draft).key)
        return { kept: kept.marks.filter(({ key }) => keys.includes(key)), refused: [] }
      },
      together: (work) => work(),
      since: (id, seq) => kept.marks.filter((mark) => mark.nightId === night(id).id && mark.seq > seq),
      field: () => ({ seq: kept.marks.length, at: NOW, stations: [], adultsIn: 0, childrenIn: 0 }),
      version: () => `first.${kept.marks.length}`,
    },
  }
}
