import { type Static, type TObject, type TProperties, Type } from 'typebox'
import { ChecklistItems } from './checklist.ts'
import { ClassVisit } from './class-visit.ts'
import { GoPlan } from './go-plan.ts'
import { MARK_KINDS, type MarkKind } from './mark.ts'
import { NightDraft, StationDraft } from './night.ts'
import { FileId, FileInstant, FileKey, FileProgramme } from './night-file-programme.ts'
import { OwnObjectDraft } from './own-object.ts'
import { OwnWordsDraft } from './own-words.ts'
import { ReportEdits } from './report-edits.ts'
import { SiteDraft } from './site.ts'
import { SiteNotes } from './site-notes.ts'
import { EyepieceDraft, FactorDraft, TelescopeDraft, TubeDraft } from './telescope.ts'
import { WishDraft } from './wish.ts'

/** The version of both kinds of file that this program writes; it reads none that is newer. */
export const FILE_VERSION = 1
export const NIGHT_FORMAT = 'duskrow-night'
export const THINGS_FORMAT = 'duskrow-things'
/** The longest file that is taken in, in letters. */
export const MOST_FILE_LETTERS = 8 * 1024 * 1024

const orNull = <Part extends TObject>(part: Part) => Type.Union([part, Type.Null()])
const withId = <Parts extends TProperties>(draft: TObject<Parts>) => Type.Object({ ...draft.properties, id: FileId })

const { siteId: _siteId, stations: _stations, ...heading } = NightDraft.properties

/** A thing of the host's, with what it was before it was changed, the latest last. */
export const FileThing = Type.Object({
  key: Type.String({ pattern: '^own-[A-Za-z0-9_-]{1,40}$' }),
  isListed: Type.Boolean(),
  draft: OwnObjectDraft,
  before: Type.Array(Type.Object({ untilAt: FileInstant, draft: OwnObjectDraft }), { maxItems: 200 }),
})
export type FileThing = Static<typeof FileThing>

/** Words that the host wrote of a thing in one language: for every night, or for the night of the file alone. */
export const FileWords = Type.Object({
  key: FileKey,
  language: Type.String({ minLength: 2, maxLength: 35 }),
  isTonight: Type.Boolean(),
  words: OwnWordsDraft,
})
export type FileWords = Static<typeof FileWords>

const FileTelescope = Type.Object({
  ...TelescopeDraft.properties,
  id: FileId,
  tubes: Type.Array(withId(TubeDraft), { minItems: 1, maxItems: 2 }),
  eyepieces: Type.Array(withId(EyepieceDraft), { minItems: 1, maxItems: 12 }),
  factors: Type.Array(withId(FactorDraft), { maxItems: 3 }),
  isPutAway: Type.Optional(Type.Boolean()),
})

const FileMark = Type.Object({
  /** The order of the file's marks; they get new numbers where they are brought in. */
  seq: Type.Integer({ minimum: 1 }),
  key: Type.String({ pattern: '^[A-Za-z0-9_-]{8,60}$' }),
  stationId: Type.Union([FileId, Type.Null()]),
  kind: Type.Unsafe<MarkKind>(Type.Union(MARK_KINDS.map((kind) => Type.Literal(kind)))),
  payload: Type.Record(Type.String({ maxLength: 40 }), Type.Unknown()),
  by: Type.String({ maxLength: 80 }),
  receivedAt: FileInstant,
  happenedAt: FileInstant,
})

const Actor = Type.Enum(['host', 'host-phone'])
const FileGo = Type.Object({
  readings: Type.Array(
    Type.Object({
      kind: Type.Enum(['cloud', 'wind', 'gust', 'air', 'temperature', 'rain', 'thunder']),
      value: Type.Number({ minimum: -100, maximum: 1000 }),
      enteredAt: FileInstant,
      enteredBy: Actor,
    }),
    { maxItems: 2000 },
  ),
  decisions: Type.Array(
    Type.Object({
      state: Type.Enum(['on', 'doubtful', 'off']),
      proposed: Type.Enum(['on', 'doubtful', 'off', 'unknown']),
      why: Type.String({ maxLength: 1000 }),
      decidedAt: FileInstant,
      decidedBy: Actor,
      decidedName: Type.String({ maxLength: 80 }),
    }),
    { maxItems: 500 },
  ),
  plan: GoPlan,
  /** What the host wrote to be published, and the facts for which it was written. */
  sentence: Type.Object({ sentence: Type.String({ maxLength: 2000 }), facts: Type.String({ maxLength: 4000 }) }),
})

const FileReport = Type.Object({
  edits: orNull(ReportEdits),
  closing: orNull(Type.Object({ stateBefore: Type.Enum(['planned', 'on', 'doubtful', 'off']), closedAt: FileInstant })),
})

const Things = Type.Array(FileThing, { maxItems: 5000 })
const WordList = Type.Array(FileWords, { maxItems: 5000 })

/** One night with everything that belongs to it. Ids hold within the file; PIN, sessions and phones are not in it. */
export const NightFile = Type.Object({
  format: Type.Literal(NIGHT_FORMAT),
  version: Type.Literal(FILE_VERSION),
  savedAt: FileInstant,
  site: withId(SiteDraft),
  siteNotes: orNull(SiteNotes),
  telescopes: Type.Array(FileTelescope, { maxItems: 60 }),
  night: Type.Object({
    ...heading,
    id: FileId,
    state: Type.Enum(['planned', 'on', 'doubtful', 'off', 'closed']),
  }),
  /** The row in its order first, then those that have left it. */
  stations: Type.Array(
    Type.Object({
      ...StationDraft.properties,
      id: FileId,
      telescopeId: Type.Union([FileId, Type.Null()]),
      isInRow: Type.Boolean(),
    }),
    { minItems: 1, maxItems: 60 },
  ),
  things: Things,
  ownWords: WordList,
  wishes: Type.Array(withId(WishDraft), { maxItems: 500 }),
  programmes: Type.Array(FileProgramme, { maxItems: 500 }),
  marks: Type.Array(FileMark, { maxItems: 50_000 }),
  go: FileGo,
  checklist: Type.Object({
    items: Type.Union([ChecklistItems, Type.Null()]),
    ticks: Type.Array(Type.String({ minLength: 1, maxLength: 40 }), { maxItems: 200 }),
  }),
  classVisit: orNull(ClassVisit),
  report: FileReport,
})
export type NightFile = Static<typeof NightFile>

/** All things that a host entered, and all words for every night. */
export const ThingsFile = Type.Object({
  format: Type.Literal(THINGS_FORMAT),
  version: Type.Literal(FILE_VERSION),
  savedAt: FileInstant,
  things: Things,
  ownWords: WordList,
})
export type ThingsFile = Static<typeof ThingsFile>
