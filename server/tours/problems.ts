import type { TSchema } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { instantOf, isDay, isSkipped, isZone, nightHours } from './hours.ts'
import { NightDraft } from './night.ts'
import { schemaProblems } from './schema-problems.ts'
import { SiteDraft } from './site.ts'
import { heard } from './station-name.ts'
import { TelescopeDraft } from './telescope.ts'

const LONGEST_NIGHT_HOURS = 12
/** The shortest stop of a programme. */
const SHORTEST_NIGHT_MIN = 15

/** What is wrong with a site as typed in; [] when it can be kept. */
export function siteProblems(draft: unknown): Problem[] {
  if (!Value.Check(SiteDraft, draft)) return problemsBySchema(SiteDraft, draft)
  const problems: Problem[] = isZone(draft.zone) ? [] : [{ field: 'zone', key: 'problem.zone-unknown' }]
  return [...problems, ...doubledAzimuths(draft), ...emptySectors(draft)]
}

function doubledAzimuths({ horizon }: SiteDraft): Problem[] {
  const azimuths = horizon.map((point) => point.azimuthDeg)
  return azimuths.flatMap((azimuthDeg, i) =>
    azimuths.indexOf(azimuthDeg) < i
      ? [{ field: `horizon.${i}.azimuthDeg`, key: 'problem.azimuth-twice', values: { azimuth: azimuthDeg } }]
      : [],
  )
}

const emptySectors = ({ glow }: SiteDraft): Problem[] =>
  glow.flatMap(({ fromDeg, toDeg }, i) =>
    fromDeg === toDeg ? [{ field: `glow.${i}.toDeg`, key: 'problem.sector-empty' }] : [],
  )

/** What is wrong with a telescope as typed in; [] when it can be kept. */
export function telescopeProblems(draft: unknown): Problem[] {
  if (!Value.Check(TelescopeDraft, draft)) return problemsBySchema(TelescopeDraft, draft).map(inTelescopeWords)
  const isUpsideDown = draft.axisHighCm < draft.axisLowCm
  return [
    ...(isUpsideDown ? [{ field: 'axisHighCm', key: 'problem.axis-order' }] : []),
    ...sameNames('tubes', draft.tubes),
    ...sameNames('eyepieces', draft.eyepieces),
    ...sameNames('factors', draft.factors ?? []),
    ...idleFactors(draft),
  ]
}

/** A factor of one is neither a Barlow nor a reducer. */
const idleFactors = ({ factors = [] }: TelescopeDraft): Problem[] =>
  factors.flatMap(({ factor }, i) =>
    factor === 1 ? [{ field: `factors.${i}.factor`, key: 'problem.factor-one' }] : [],
  )

function inTelescopeWords(problem: Problem): Problem {
  const { field, key } = problem
  if (field === 'tubes' && key !== 'problem.too-many') return { field, key: 'problem.no-tube' }
  if (field === 'eyepieces' && key !== 'problem.too-many') return { field, key: 'problem.no-eyepiece' }
  const isFocalLength = /^eyepieces\.\d+\.focalLengthMm$/.test(field)
  return isFocalLength && key === 'problem.range' ? { ...problem, key: 'problem.eyepiece-range' } : problem
}

function sameNames(field: string, things: readonly { readonly name: string }[]): Problem[] {
  const names = things.map(({ name }) => heard(name))
  return things.flatMap(({ name }, i) =>
    names.indexOf(names[i] ?? '') < i
      ? [{ field: `${field}.${i}.name`, key: 'problem.name-twice', values: { name: name.trim() } }]
      : [],
  )
}

/**
 * What is wrong with a night as typed in, at the evening clock's `now` and in the zone of its site; [] when it can be kept.
 * A night is in the past when its public hours have ended.
 */
export function nightProblems(draft: unknown, now: Date, zone: string): Problem[] {
  if (!Value.Check(NightDraft, draft)) return problemsBySchema(NightDraft, draft)
  if (!isZone(zone)) return [{ field: 'siteId', key: 'problem.zone-unknown' }]
  if (!isDay(draft.date)) return [{ field: 'date', key: 'problem.no-such-day' }]
  const night = { ...draft, site: { zone } }
  return [...hoursProblems(night, now), ...visitorProblems(night), ...stationProblems(draft)]
}

type Zoned = NightDraft & { readonly site: { readonly zone: string } }

function hoursProblems(night: Zoned, now: Date): Problem[] {
  const skipped = (['opens', 'closes'] as const).filter((field) => isSkipped(night, night[field]))
  if (skipped.length > 0) {
    return skipped.map((field) => ({ field, key: 'problem.time-skipped', values: { time: night[field] } }))
  }
  const { opensAt, closesAt } = nightHours(night)
  const hours = (closesAt.getTime() - opensAt.getTime()) / 3_600_000
  if (hours <= 0) return [{ field: 'closes', key: 'problem.hours-order' }]
  if (hours < SHORTEST_NIGHT_MIN / 60) {
    return [{ field: 'closes', key: 'problem.hours-short', values: { minimum: SHORTEST_NIGHT_MIN } }]
  }
  if (hours > LONGEST_NIGHT_HOURS) {
    return [{ field: 'closes', key: 'problem.hours-long', values: { maximum: LONGEST_NIGHT_HOURS } }]
  }
  return closesAt < now ? [{ field: 'date', key: 'problem.night-past' }] : []
}

function visitorProblems(night: Zoned): Problem[] {
  const { opensAt, closesAt } = nightHours(night)
  const starts = night.visitors.map(({ startsAt }) =>
    isSkipped(night, startsAt) ? null : instantOf(night, startsAt).getTime(),
  )
  return night.visitors.flatMap((row, i): Problem[] => {
    const startsAt = starts[i] ?? null
    if (startsAt === null) {
      return [{ field: `visitors.${i}.startsAt`, key: 'problem.half-hour-skipped', values: { time: row.startsAt } }]
    }
    const endsAt = startsAt + 1_800_000
    if (endsAt <= opensAt.getTime() || startsAt >= closesAt.getTime()) {
      return [{ field: `visitors.${i}.startsAt`, key: 'problem.half-hour-outside', values: { time: row.startsAt } }]
    }
    if (starts.indexOf(startsAt) < i) return [{ field: `visitors.${i}.startsAt`, key: 'problem.half-hour-twice' }]
    const isCrowded = row.seated > row.adults + row.children
    return isCrowded ? [{ field: `visitors.${i}.seated`, key: 'problem.seated-many' }] : []
  })
}

function stationProblems({ stations }: NightDraft): Problem[] {
  const ids = stations.map((station) => station.telescopeId)
  return stations.flatMap(({ kind, telescopeId }, i): Problem[] => {
    const field = `stations.${i}.telescopeId`
    if (kind === 'telescope' && telescopeId === null) return [{ field, key: 'problem.station-without-telescope' }]
    if (kind !== 'telescope' && telescopeId !== null) return [{ field, key: 'problem.station-with-telescope' }]
    const isTwice = telescopeId !== null && ids.indexOf(telescopeId) < i
    return isTwice ? [{ field, key: 'problem.telescope-twice' }] : []
  })
}

function problemsBySchema(schema: TSchema, draft: unknown): Problem[] {
  const zero = /^eyepieces\.\d+\.focalLengthMm$/
  return schemaProblems(Value.Errors(schema, draft), schema).map((problem) =>
    zero.test(problem.field) && valueAt(draft, problem.field) === 0
      ? { field: problem.field, key: 'problem.eyepiece-zero' }
      : problem,
  )
}

/** The value at a path with dots inside plain data, or undefined. */
function valueAt(data: unknown, path: string): unknown {
  let at: unknown = data
  for (const name of path.split('.')) {
    if (typeof at !== 'object' || at === null) return undefined
    at = Object.entries(at).find(([key]) => key === name)?.[1]
  }
  return at
}
