import { createReadStream, mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { setTimeout as wait } from 'node:timers/promises'
import { seededRandom } from '../../server/sky/random.ts'
import { type AnswerVerdict, answerJudge } from './answer-log.ts'
import { actOf, type CrowdedNight, crowdedNight, EVENING, type JoinedPhone, lineOf } from './crowded-night.ts'
import { removeFolder } from './desk-folder.ts'
import { ended, startService } from './running-service.ts'

/** Whole pages of the database, since the key of an act may stand anywhere in one. */
const CALLS = ['-s', '4200', '-e', 'trace=read,write,writev,pwrite64,pwritev,fsync,fdatasync']
/** The process itself is the child, and not strace, which then ends with it. */
const STRACE = ['strace', '-D', '-ff', '-y', '--seccomp-bpf', ...CALLS]
const CARELESS = join(import.meta.dirname, 'careless-database.ts')
const PHONES = 40
/** A phone may send sixty a minute. */
const ACTS_A_PHONE = 50
const LONGEST_PAUSE_MS = 8

/**
 * Lets forty phones at a time send so many acts to the service under strace, one in four as a form of a page without
 * scripts, and judges whether each was synced to the disk before its answer left. `careless` syncs no commit.
 */
export async function savedFirst(acts: number, seed: number, manner: 'careful' | 'careless'): Promise<AnswerVerdict> {
  const night = await crowdedNight(Math.max(PHONES, Math.ceil(acts / ACTS_A_PHONE)))
  const logs = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const { child, open } = startService(night.folder, ['--clock', EVENING], {
    under: [...STRACE, '-o', join(logs, 'calls')],
    ...(manner === 'careless' ? { loading: CARELESS } : {}),
  })
  try {
    await sendAll((await open).url, night, acts, seed)
    await ended(child, 'SIGTERM')
    const judge = answerJudge()
    for await (const line of createInterface({ input: createReadStream(join(logs, `calls.${child.pid}`)) })) {
      judge.take(line)
    }
    return judge.verdict()
  } finally {
    await ended(child)
    removeFolder(logs)
    removeFolder(night.folder)
  }
}

/** Each phone sends its acts one after the other with short pauses, so that one or many come in the same moment. */
async function sendAll(url: string, night: CrowdedNight, acts: number, seed: number): Promise<void> {
  const random = seededRandom(seed)
  const each = Math.ceil(acts / night.phones.length)
  const waiting = night.phones.map((phone, i) => ({ phone, from: i * each, to: Math.min(acts, (i + 1) * each) }))

  async function send({ phone, from, to }: { phone: JoinedPhone; from: number; to: number }): Promise<void> {
    const line = lineOf(url, phone)
    for (let i = from; i < to; i++) {
      const { path, type, body, status } = i % 4 === 3 ? asForm(i, night) : asJson(i, night)
      const answer = await line.post(path, type, body)
      if (answer.status !== status) throw new Error(`An act was not kept: ${answer.status} ${answer.text}`)
      await wait(random() * LONGEST_PAUSE_MS)
    }
    line.leave()
  }
  async function inTurn(): Promise<void> {
    for (let next = waiting.shift(); next; next = waiting.shift()) await send(next)
  }
  await Promise.all(Array.from({ length: PHONES }, inTurn))
}

const keyOf = (i: number): string => `act-${String(i).padStart(6, '0')}`

function asJson(i: number, night: CrowdedNight) {
  const body = JSON.stringify({ marks: [actOf(keyOf(i), i, night)] })
  return { path: `/api/nights/${night.nightId}/marks`, type: 'application/json', body, status: 200 }
}

function asForm(i: number, { nightId }: CrowdedNight) {
  const body = new URLSearchParams({ key: keyOf(i), kind: 'counted', adults: '1', children: '1' }).toString()
  return { path: `/field/${nightId}/marks`, type: 'application/x-www-form-urlencoded', body, status: 303 }
}
