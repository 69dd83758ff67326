import type { Database } from 'better-sqlite3'
import { attachCatalogue, catalogueDigest, ensureCatalogue } from '../../db/catalogue/load.ts'
import { type ConstellationStore, constellationStore } from '../../db/constellations.ts'
import { openFolder } from '../../db/folder.ts'
import { joinSecret } from '../../db/join-secret.ts'
import { type ObjectStore, objectStore } from '../../db/objects.ts'
import { changesOf, sqliteFacts } from '../../db/open.ts'
import { type PlaceStore, placeStore } from '../../db/places.ts'
import { type StarStore, starStore } from '../../db/stars.ts'
import { type WorldEventStore, worldEventStore } from '../../db/world-events.ts'
import type { Clock } from '../clock.ts'
import { PROOF_ROUNDS } from '../tours/build.ts'
import { isForTelescopes } from '../tours/target.ts'
import { againDesk } from './again.ts'
import { brightStars } from './alignment.ts'
import { type BackupOptions, openBackups } from './backup-start.ts'
import { besideDesk } from './beside.ts'
import { browsing } from './browsing.ts'
import { bundleWorker } from './bundle.ts'
import { carryDesk } from './carry.ts'
import { chartDesk } from './charts.ts'
import { checkDesk } from './checks.ts'
import type { Desk, HealthAnswer } from './desk.ts'
import { freeBytes } from './disk.ts'
import { goodNowDesk } from './good-now.ts'
import { holeDesk } from './hole.ts'
import type { WorkerStart } from './job-kinds.ts'
import { type Jobs, jobQueue } from './jobs.ts'
import { DEFAULT_JOIN_LIMITS, type JoinLimits } from './join-tries.ts'
import { joinDesk } from './joins.ts'
import { learningDesk } from './learning.ts'
import { markLog } from './mark-log.ts'
import { markDesk } from './marks.ts'
import { missingDesk } from './missing.ts'
import { nightDesk } from './nights.ts'
import { tonightDesk } from './object-tonight.ts'
import { fixedOf, knownIn, objectDesk } from './objects.ts'
import { ownDesk } from './own-objects.ts'
import { storyTeller, wordDesk } from './own-words.ts'
import { planning } from './planning.ts'
import { sessionDesk } from './sessions.ts'
import { settingUp } from './setting-up.ts'
import { sightDesk } from './sight.ts'
import { lineDesk } from './simulation.ts'
import { siteDesk } from './sites.ts'
import { skyDesk } from './sky.ts'
import { openStores, type Stores } from './stores.ts'
import { telescopeDesk } from './telescopes.ts'
import { programmeOf } from './tours.ts'
import { DEFAULT_TRY_LIMITS, type TryLimits } from './tries.ts'
import { wishDesk } from './wishes.ts'

export interface DeskOptions {
  /** The data folder; made when it is not there. One process at a time. */
  readonly folder: string
  readonly clock: Clock
  /** The host's PIN; null keeps the one that the folder already has, and makes one where it has none. */
  readonly pin: string | null
  readonly commit: string
  readonly version: string
  readonly tryLimits?: TryLimits
  readonly joinLimits?: JoinLimits
  /** The laptop's own time in milliseconds, for sessions, codes and copies only. */
  readonly nowMs?: () => number
  /** Rounds in which a limit is proved for each new programme, in the background; 0 for none. */
  readonly proofRounds?: number
  /** How copies of the database are made by themselves; without it they are made on demand alone. */
  readonly backups?: BackupOptions
  /** Called before the catalogue is built, which takes some seconds, once for each folder. */
  readonly beforeBuild?: (() => void) | undefined
}

/** Opens a data folder and answers the desk over it; the catalogue is built there when it is missing or out of date. */
export async function createDesk(options: DeskOptions): Promise<Desk> {
  const { db, close, wentBack } = await openFolder(options.folder)
  try {
    attachCatalogue(db, ensureCatalogue(options.folder, undefined, options.beforeBuild))
    const objects = objectStore(db)
    const digest = catalogueDigest(db)
    const jobs = jobQueue(await bundleWorker(), {
      objects: objects.outreach().filter(isForTelescopes),
      catalogueDigest: digest,
      stars: brightStars(objects),
    } satisfies WorkerStart)
    const parts = await deskParts(
      options,
      {
        ...openStores(db),
        objects,
        stars: starStore(db),
        constellations: constellationStore(db),
        worldEvents: worldEventStore(db),
        places: placeStore(db),
      },
      jobs,
      digest,
    )
    const backups = await openBackups({ ...options, db, wentBack })
    return {
      ...parts,
      backups: backups.desk,
      health: () => healthOf(options, db, objects),
      changes: changesOf(db),
      freeBytes: () => freeBytes(options.folder),
      async close() {
        await Promise.all([jobs.close(), backups.close()])
        close()
      },
    }
  } catch (error) {
    close()
    throw error
  }
}

interface CatalogueStores {
  readonly objects: ObjectStore
  readonly stars: StarStore
  readonly constellations: ConstellationStore
  readonly worldEvents: WorldEventStore
  readonly places: PlaceStore
}

async function deskParts(
  options: DeskOptions,
  stores: Stores & CatalogueStores,
  jobs: Jobs,
  catalogueDigest: string,
): Promise<Omit<Desk, 'health' | 'changes' | 'backups' | 'freeBytes' | 'close'>> {
  const { clock, proofRounds = PROOF_ROUNDS } = options
  const log = markLog(stores.marks)
  const [sites, telescopes] = [siteDesk(stores), telescopeDesk(stores)]
  const nights = nightDesk({ ...stores, clock })
  const objects = objectDesk({ ...stores, story: storyTeller(stores) })
  const known = knownIn(stores)
  const keyOf = (name: string) => known(name)?.canonicalKey
  const own = () => stores.ownObjects.listed().filter(isForTelescopes)
  const sky = skyDesk((key) => fixedOf(objects, stores.stars, key))
  const programme = (nightId: string) => programmeOf(stores.tours, log, nightId)
  const extra = stores.objects.outreach().filter((object) => !isForTelescopes(object))
  const ownAsOf = (at: Date) => stores.ownObjects.asOf(at).filter(isForTelescopes)
  const learning = learningDesk({ ...stores, sites, nights, log, jobs, clock, ownAsOf })
  const marks = markDesk({ ...stores, clock, log, knowsObject: (key) => known(key) !== undefined, programme })
  return {
    sites,
    telescopes,
    nights,
    objects,
    words: wordDesk({ ...stores, show: objects.show, findNight: nights.find }),
    own: ownDesk({ ...stores, clock, keyOf }),
    sky,
    sight: sightDesk({ objects, sky }),
    ...planning({ ...stores, log, findNight: nights.find, jobs, clock, catalogueDigest, own, proofRounds, learning }),
    again: againDesk({ ...stores, nights, marks, log, clock, together: stores.marks.together }),
    wishes: wishDesk({ ...stores, objects, keyOf, findNight: nights.find, programme, jobs, own }),
    ...settingUp({ ...stores, log, findNight: nights.find, programme, sky, allSites: sites.all, jobs, own, clock }),
    tonight: tonightDesk({ objects, own, findNight: nights.find, programme, jobs }),
    checks: checkDesk({ findNight: nights.find, programme, log, jobs, own }),
    hole: holeDesk({ findNight: nights.find, jobs, own }),
    goodNow: goodNowDesk({ ...stores, findNight: nights.find, field: marks.field, log, jobs, own }),
    line: lineDesk({ findNight: nights.find, programme, jobs, own }),
    missing: missingDesk({ ...stores, findNight: nights.find, jobs, own }),
    beside: besideDesk({ findNight: nights.find, jobs, extra, own, things: stores.ownObjects.all }),
    charts: chartDesk({ ...stores, looked: objects, findNight: nights.find, own, jobs }),
    marks,
    carry: carryDesk({ stores, knows: (key) => known(key) !== undefined, keyOf, clock }),
    learning,
    ...browsing({ ...stores, own, looked: objects, sites, telescopes, nights, learning, jobs, clock }),
    ...(await doorParts(options, stores)),
  }
}

/** The ways in: the host's PIN and the phones' codes. */
async function doorParts(
  {
    folder,
    clock,
    pin,
    tryLimits = DEFAULT_TRY_LIMITS,
    joinLimits = DEFAULT_JOIN_LIMITS,
    nowMs = Date.now,
  }: DeskOptions,
  stores: Stores,
): Promise<Pick<Desk, 'sessions' | 'joins'>> {
  const heard = new Map<string, number>()
  return {
    sessions: await sessionDesk({ ...stores, pin, limits: tryLimits, heard, nowMs }),
    joins: joinDesk({ ...stores, clock, secret: joinSecret(folder), limits: joinLimits, heard, nowMs }),
  }
}

const healthOf = ({ version, commit, clock }: DeskOptions, db: Database, objects: ObjectStore): HealthAnswer => ({
  version,
  commit,
  now: clock.now(),
  isRehearsal: clock.isRehearsal,
  counts: objects.counts(),
  sqlite: sqliteFacts(db),
})
