import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { ensureCatalogue } from '../../db/catalogue/load.ts'
import { DATABASE_FILE } from '../../db/open.ts'
import type { MarkDraft } from '../../server/tours/mark.ts'
import { actOf, type CrowdedNight, crowdedNight, EVENING, type JoinedPhone, lineOf } from './crowded-night.ts'
import { removeFolder } from './desk-folder.ts'
import { ended, type RunningService, startService } from './running-service.ts'
import { type SmallDisk, smallDisk } from './small-disk.ts'

/** What was seen of a service whose disk was filled again and again. */
interface DiskFilled {
  readonly rounds: number
  /** Starts on the full disk, after the service had been killed on it, that ended with a sentence. */
  readonly startsRefused: number
  readonly acked: number
  /** Answers that the disk is full. */
  readonly refused: number
  readonly problems: readonly string[]
}

/** Enough for the look before the start, which wants fifty free. */
const MEGABYTES = 128
/** So many that none comes to the end of what it may send in a minute. */
const PHONES = 100
const AT_ONCE = 20
const CALM_ACTS = 60
/** The journal has room of its own for some hundred acts after the disk is full. */
const MOST_ACTS = 3_000
const LEAST_REFUSALS = 40
/** One filling in so many ends with the service killed and started on the full disk. */
const KILLED = 4
const Told = Type.Object({ marks: Type.Array(Type.Object({ key: Type.String() })) })
const REFUSED_START = /^(Only 0 MB are free where the data folder|The disk is full on which the data folder)/gm
const FULL = /"fault\.disk-(full|refuses)"/

/** Fills the disk of a running service, sees what phones are told, and makes room again; null where no disk may be mounted. */
export async function fillRounds(rounds: number): Promise<DiskFilled | null> {
  const night = await crowdedNight(PHONES)
  leaveOneCatalogue(night.folder)
  const disk = await smallDisk(night.folder, MEGABYTES)
  try {
    return disk && (await roundsOn(disk, night, rounds))
  } finally {
    await disk?.close()
    removeFolder(night.folder)
  }
}

/** A folder for tests has the catalogues of other states of the program too, which would not fit. */
function leaveOneCatalogue(folder: string): void {
  const own = basename(ensureCatalogue(folder))
  for (const name of readdirSync(folder)) if (/^catalogue-/.test(name) && name !== own) rmSync(join(folder, name))
}

async function roundsOn(disk: SmallDisk, night: CrowdedNight, rounds: number): Promise<DiskFilled> {
  const errors = join(night.folder, 'errors')
  const under = [...disk.under, 'sh', '-c', 'exec "$@" 2>>"$0"', errors]
  const start = () => startService(disk.path, ['--clock', EVENING], { under })
  const problems: string[] = []
  const field = fullField(night, problems)
  let service = await start().open.catch((error) => {
    throw new Error(`${error}${readFileSync(errors, 'utf8')}`)
  })
  let startsRefused = 0

  async function killAndStart(): Promise<void> {
    await ended(service.child)
    const opened = await start().open.catch(() => null)
    if (opened) await ended(opened.child)
    else startsRefused += 1
    disk.free()
    service = await start().open
  }

  try {
    for (let round = 0; round < rounds; round++) {
      await field.send(service, CALM_ACTS, 0)
      disk.fill()
      const refused = await field.send(service, MOST_ACTS, LEAST_REFUSALS)
      if (refused < LEAST_REFUSALS)
        problems.push(`round ${round}: only ${refused} acts were told that the disk is full`)
      await field.look(service)
      if (round % KILLED === KILLED - 1) await killAndStart()
      else disk.free()
      await field.sendWaiting(service)
      await field.look(service)
    }
    await ended(service.child, 'SIGTERM')
    if (service.child.exitCode !== 0) problems.push(`The service ended with ${service.child.exitCode}`)
    problems.push(...unsound(disk.seen))
  } finally {
    await ended(service.child)
  }
  const sentences = readFileSync(errors, 'utf8').match(REFUSED_START)?.length ?? 0
  if (sentences !== startsRefused) problems.push(`${startsRefused - sentences} starts ended without a sentence`)
  return { rounds, startsRefused, ...field.counts(), problems }
}

/** What is wrong with the database of a folder itself. */
function unsound(folder: string): readonly string[] {
  // SQLite follows the way to the other disk back to this one, so it looks at a copy.
  const copy = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  for (const name of readdirSync(folder)) {
    if (name.startsWith(DATABASE_FILE)) cpSync(join(folder, name), join(copy, name))
  }
  const db = new SqliteDatabase(join(copy, DATABASE_FILE))
  const integrity = db.pragma('integrity_check', { simple: true })
  const broken = db.pragma('foreign_key_check') as unknown[]
  db.close()
  removeFolder(copy)
  return [...(integrity === 'ok' ? [] : [`integrity: ${String(integrity)}`]), ...broken.map(() => 'a broken reference')]
}

/** The phones, and what the service has told them. */
function fullField(night: CrowdedNight, problems: string[]) {
  const acked = new Set<string>()
  const waiting: { readonly phone: JoinedPhone; readonly draft: MarkDraft }[] = []
  let [made, refusals] = [0, 0]

  /** True when the act is told as kept. */
  async function sendOne(url: string, phone: JoinedPhone, draft: MarkDraft): Promise<boolean> {
    const line = lineOf(url, phone)
    const body = JSON.stringify({ marks: [draft] })
    const { status, text } = await line.post(`/api/nights/${night.nightId}/marks`, 'application/json', body)
    line.leave()
    if (status === 200) acked.add(draft.key)
    else if (status === 507 && FULL.test(text)) refusals += 1
    else problems.push(`An act was answered ${status}: ${text}`)
    return status === 200
  }

  async function sendNew({ url }: RunningService): Promise<boolean> {
    made += 1
    const phone = night.phones[made % night.phones.length]
    if (!phone) throw new Error('The night has no phones')
    const draft = actOf(`full-disk-${String(made).padStart(6, '0')}`, made, night)
    const isKept = await sendOne(url, phone, draft)
    if (!isKept) waiting.push({ phone, draft })
    return isKept
  }

  return {
    counts: () => ({ acked: acked.size, refused: refusals }),
    /** Sends new acts, some at once, until so many were sent or so many of them refused; answers how many were refused. */
    async send(service: RunningService, most: number, enough: number): Promise<number> {
      let refused = 0
      for (let sent = 0; sent < most && (enough === 0 || refused < enough); sent += AT_ONCE) {
        const kept = await Promise.all(Array.from({ length: AT_ONCE }, () => sendNew(service)))
        refused += kept.filter((isKept) => !isKept).length
      }
      return refused
    },
    /** Sends again what was refused, as phones do, once there is room. */
    async sendWaiting({ url }: RunningService): Promise<void> {
      for (const { phone, draft } of waiting.splice(0)) {
        if (!(await sendOne(url, phone, draft))) problems.push(`${draft.key} was refused although there is room`)
      }
    },
    /** The service is up, answers pages, and holds just what it has told phones that it keeps. */
    async look({ url, child }: RunningService): Promise<void> {
      if (child.exitCode !== null || child.signalCode !== null) problems.push('The service has ended')
      for (const page of ['/', `/field/${night.nightId}`, '/api/health']) {
        const { status } = await fetch(`${url}${page}`)
        if (status !== 200) problems.push(`${page} was answered ${status}`)
      }
      const headers = { cookie: night.phones[0]?.cookie ?? '' }
      const answer = await fetch(`${url}/api/nights/${night.nightId}/marks`, { headers })
      const { marks } = Value.Parse(Told, await answer.json())
      const keys = marks.map(({ key }) => key)
      if (new Set(keys).size < keys.length) problems.push('An act is there twice')
      for (const key of keys) if (!acked.has(key)) problems.push(`${key} is kept and was not told so`)
      const held = new Set(keys)
      for (const key of acked) if (!held.has(key)) problems.push(`${key} was told as kept and is not there`)
    },
  }
}
