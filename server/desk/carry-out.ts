import { notFound } from '../errors.ts'
import type { Night } from '../tours/night.ts'
import {
  FILE_VERSION,
  type FileThing,
  type FileWords,
  NIGHT_FORMAT,
  type NightFile,
  THINGS_FORMAT,
  type ThingsFile,
} from '../tours/night-file.ts'
import { namedKeys } from '../tours/night-file-problems.ts'
import { programmeInFile } from '../tours/night-file-programme.ts'
import { isOwnKey } from '../tours/own-object.ts'
import type { Stores } from './stores.ts'

/** A night with everything that belongs to it. */
export function nightInFile(stores: Stores, nightId: string, now: Date): NightFile {
  const night = stores.nights.find(nightId)
  if (!night) throw notFound('night')
  const acts = {
    wishes: stores.wishes.all(nightId).map((wish) => ({ ...wish, things: [...wish.things] })),
    programmes: stores.tours.versions(nightId).flatMap(({ id }) => {
      const tour = stores.tours.find(id)
      return tour ? [programmeInFile(tour)] : []
    }),
    marks: stores.marks.since(nightId, 0).map(({ nightId: _nightId, receivedAt, happenedAt, ...mark }) => ({
      ...mark,
      receivedAt: receivedAt.toISOString(),
      happenedAt: happenedAt.toISOString(),
    })),
  }
  const keys = new Set([...namedKeys(acts), ...stores.ownWords.keys(nightId)])
  return {
    format: NIGHT_FORMAT,
    version: FILE_VERSION,
    savedAt: now.toISOString(),
    site: { ...night.site, horizon: [...night.site.horizon], glow: [...night.site.glow] },
    siteNotes: stores.siteNotes.find(night.site.id) ?? null,
    ...rowInFile(stores.nights.everyStation, night),
    things: [...keys]
      .filter(isOwnKey)
      .sort()
      .flatMap((key) => thingInFile(stores, key)),
    ownWords: [
      ...[...keys].sort().flatMap((key) => wordsInFile(stores, key)),
      ...stores.ownWords.keys(nightId).flatMap((key) => wordsInFile(stores, key, nightId)),
    ],
    ...acts,
    ...besideInFile(stores, nightId),
  }
}

/** All that a host entered and wrote for every night. */
export const thingsInFile = (stores: Stores, now: Date): ThingsFile => ({
  format: THINGS_FORMAT,
  version: FILE_VERSION,
  savedAt: now.toISOString(),
  things: stores.ownObjects.all().flatMap(({ key }) => thingInFile(stores, key)),
  ownWords: stores.ownWords.keys().flatMap((key) => wordsInFile(stores, key)),
})

/** The night itself, its stations with those that have left the row last, and the telescopes that stand at them. */
export function rowInFile(
  everyStation: Stores['nights']['everyStation'],
  night: Night,
): Pick<NightFile, 'night' | 'stations' | 'telescopes'> {
  const inRow = new Set(night.stations.map(({ id }) => id))
  const stations = [...night.stations, ...everyStation(night.id).filter(({ id }) => !inRow.has(id))]
  const telescopes = new Map(stations.flatMap(({ telescope }) => (telescope ? [[telescope.id, telescope]] : [])))
  const { stations: _stations, site: _site, visitors, ...heading } = night
  return {
    night: { ...heading, visitors: [...visitors] },
    stations: stations.map(({ telescope, ...station }) => ({
      ...station,
      telescopeId: telescope?.id ?? null,
      isInRow: inRow.has(station.id),
    })),
    telescopes: [...telescopes.values()].map(({ tubes, eyepieces, factors, ...telescope }) => ({
      ...telescope,
      tubes: [...tubes],
      eyepieces: [...eyepieces],
      factors: [...factors],
    })),
  }
}

function thingInFile({ ownObjects }: Stores, key: string): FileThing[] {
  const thing = ownObjects.find(key)
  if (!thing) return []
  return [{ key, isListed: thing.isListed, draft: thing.draft, before: [...ownObjects.statesBefore(key)] }]
}

const wordsInFile = ({ ownWords }: Stores, key: string, nightId?: string): FileWords[] =>
  ownWords.languages(nightId === undefined ? { key } : { key, nightId }).flatMap((language) => {
    const words = ownWords.find(key, language, nightId)
    return Object.keys(words).length === 0 ? [] : [{ key, language, isTonight: nightId !== undefined, words }]
  })

/** What was decided, ticked, agreed and written of a night. */
export function besideInFile(
  { go, checklists, classVisits, reports }: Pick<Stores, 'go' | 'checklists' | 'classVisits' | 'reports'>,
  nightId: string,
): Pick<NightFile, 'go' | 'checklist' | 'classVisit' | 'report'> {
  const [closing, items] = [reports.closing(nightId), checklists.find(nightId)]
  return {
    go: {
      readings: go.readings(nightId).map((it) => ({ ...it, enteredAt: it.enteredAt.toISOString() })),
      decisions: go.decisions(nightId).map((it) => ({ ...it, decidedAt: it.decidedAt.toISOString() })),
      plan: go.plan(nightId),
      sentence: go.sentence(nightId),
    },
    checklist: { items: items ? [...items] : null, ticks: [...checklists.ticks(nightId)].sort() },
    classVisit: classVisits.find(nightId) ?? null,
    report: {
      edits: reports.edits(nightId) ?? null,
      closing: closing ? { ...closing, closedAt: closing.closedAt.toISOString() } : null,
    },
  }
}
