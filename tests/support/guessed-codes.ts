import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { codeLines } from './code-line.ts'
import { freshFolder, openDesk, removeFolder } from './desk-folder.ts'
import { testApp, WIDE } from './web.ts'

/** An honest phone: how often its owner mistyped, and how long it then took to get in. */
interface HonestJoin {
  readonly slips: number
  /** The answers to right codes and what was waited because the laptop said so; null when it never got in. */
  readonly tookMs: number | null
  /** After three slips the laptop asks to wait, and the code on the card is scanned instead. */
  readonly hasScanned: boolean
}

/** What an attack on the codes of a night came to. */
export interface AttackSeen {
  readonly minutes: number
  /** Codes sent, and wrong ones that were looked at at all. */
  readonly sent: number
  readonly lookedAt: number
  /** Of any sixty seconds, of any after the first sixty, and of any six hundred. */
  readonly fullestMinute: number
  readonly fullestLater: number
  readonly fullestTen: number
  /** Attackers who were let in. */
  readonly guessed: number
  readonly honest: readonly HonestJoin[]
}

/** How many different codes there are to type. */
export const CODES = 32 ** 8
export const TRIES_A_MINUTE = 30

const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const ATTACKERS = 50
const HONEST_ADDRESSES = 200
const STEADY_SEC = 10
const SAVED_SEC = 600
const TYPING_SEC = 5
const SLIPS_BEFORE_SCAN = 3
const MINUTE_SEC = 60
/** Manners of attack take turns after so long. */
const TURN_SEC = 600
const STARTED_MS = Date.UTC(2026, 11, 17, 12)

interface Honest {
  readonly address: string
  readonly slips: number
  slipsLeft: number
  nextSec: number
  spentMs: number
  tookMs: number | null
  hasScanned: boolean
}

/**
 * Attackers at fifty addresses guess the code of a night for so many minutes of the laptop's time, over real lines: by
 * turns as soon as each is let, all that was saved up in ten minutes at once, and one try each ten seconds. Each minute
 * an honest phone joins, some after a slip or two.
 */
export async function attackCodes(minutes: number, seed: number): Promise<AttackSeen> {
  const folder = freshFolder()
  let nowSec = 0
  const desk = await openDesk(folder, { nowMs: () => STARTED_MS + nowSec * 1000 })
  const { code, token } = desk.joins.codes(seedEvening(desk, north).id)
  let port = 0
  const { app } = await testApp({ desk, limits: WIDE, allowedHosts: () => new Set([`127.0.0.1:${port}`]) })
  await app.listen({ port: 0, host: '127.0.0.1' })
  port = Number(new URL(app.listeningOrigin).port)
  const lines = codeLines(port)
  const random = seededRandom(seed)
  const nextSec = Array.from({ length: ATTACKERS }, () => 0)
  const wrongSecs: number[] = []
  const honest: Honest[] = []
  let [sent, guessed] = [0, 0]

  async function say(address: string, secret: string) {
    const answer = await lines.say(address, secret)
    sent += 1
    if (answer.status === 403) wrongSecs.push(nowSec)
    else if (answer.status !== 429 && answer.status !== 201) throw new Error(`Answered ${answer.status}`)
    return answer
  }

  async function attack(attacker: number): Promise<void> {
    const isSteady = mannerAt(nowSec) === 'steady'
    for (let isAgain = true; isAgain; ) {
      const { status, waitSec } = await say(`127.0.3.${attacker + 1}`, guess(random))
      if (status === 201) guessed += 1
      nextSec[attacker] = nowSec + Math.max(1, waitSec)
      isAgain = status === 403 && !isSteady
    }
    if (isSteady) nextSec[attacker] = nowSec + STEADY_SEC
    if (mannerAt(nowSec) === 'saving') nextSec[attacker] = (Math.floor(nowSec / SAVED_SEC) + 1) * SAVED_SEC
  }

  async function join(phone: Honest): Promise<void> {
    const isSlip = phone.slipsLeft > 0
    const { status, waitSec, tookMs } = await say(phone.address, secretOf(phone))
    if (!isSlip) phone.spentMs += tookMs
    if (status === 201) phone.tookMs = phone.spentMs
    if (status === 403) phone.slipsLeft -= 1
    if (status === 429 && phone.slips >= SLIPS_BEFORE_SCAN) phone.hasScanned = true
    else phone.spentMs += waitSec * 1000
    phone.nextSec = nowSec + (phone.hasScanned ? TYPING_SEC : Math.max(TYPING_SEC, waitSec))
  }

  function secretOf({ slipsLeft, hasScanned }: Honest): string {
    if (hasScanned) return token
    return slipsLeft > 0 ? guess(random) : code
  }

  try {
    for (; nowSec < minutes * MINUTE_SEC; nowSec++) {
      if (nowSec % MINUTE_SEC === 0) honest.push(newHonest(honest.length, nowSec, random))
      const attackers = nextSec.flatMap((sec, attacker) => (sec <= nowSec ? [attacker] : []))
      const coming = honest.filter((phone) => phone.tookMs === null && phone.nextSec <= nowSec)
      await Promise.all([...attackers.map(attack), ...coming.map(join)])
    }
  } finally {
    lines.close()
    await app.close()
    await desk.close()
    removeFolder(folder)
  }
  return { minutes, sent, guessed, honest, ...crowding(wrongSecs) }
}

const mannerAt = (sec: number) => (['greedy', 'saving', 'steady'] as const)[Math.floor(sec / TURN_SEC) % 3]

const guess = (random: () => number): string =>
  Array.from({ length: 8 }, () => LETTERS[Math.floor(random() * LETTERS.length)]).join('')

/** One in four of them slips once, one in ten twice, one in twenty three times. */
function newHonest(place: number, minuteSec: number, random: () => number): Honest {
  const chance = random()
  const slips = [0.05, 0.15, 0.4].filter((share) => chance < share).length
  const nextSec = minuteSec + Math.floor(random() * MINUTE_SEC)
  const address = `127.0.4.${(place % HONEST_ADDRESSES) + 1}`
  return { address, slips, slipsLeft: slips, nextSec, spentMs: 0, tookMs: null, hasScanned: false }
}

function crowding(wrongSecs: readonly number[]) {
  const later = wrongSecs.filter((sec) => sec >= MINUTE_SEC)
  return {
    lookedAt: wrongSecs.length,
    fullestMinute: fullest(wrongSecs, MINUTE_SEC),
    fullestLater: fullest(later, MINUTE_SEC),
    fullestTen: fullest(wrongSecs, 10 * MINUTE_SEC),
  }
}

/** The most instants that lie within such a span. */
function fullest(secs: readonly number[], spanSec: number): number {
  let [from, most] = [0, 0]
  for (const [i, sec] of secs.entries()) {
    while ((secs[from] ?? sec) <= sec - spanSec) from += 1
    most = Math.max(most, i + 1 - from)
  }
  return most
}
