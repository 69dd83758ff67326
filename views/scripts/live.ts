// Hears of every change of a night: by one stream, and where none comes through by asking every few seconds.
import { timer } from './timer.ts'

export interface Change {
  /** `<epoch>.<number>` of the newest act. */
  readonly version: string
  /** True when `marks` are all that the laptop has. */
  readonly isSnapshot?: boolean
  readonly marks?: readonly { readonly key: string; readonly seq: number }[]
  readonly field?: { readonly at: string; readonly stations: readonly StationAhead[] }
  readonly zone?: string
  /** How many evening seconds pass in one second. */
  readonly speed?: number
  readonly tourVersion?: number | null
  /** True when a programme was built. */
  readonly isProgramme?: boolean
}

interface StationAhead {
  readonly untilAt: string | null
  readonly next: { readonly atAt: string } | null
}

interface Said {
  readonly data: string
  readonly lastEventId: string
}

/** The part of an `EventSource` that is used. */
export interface Stream {
  addEventListener(name: string, run: (event: Said) => void): void
  close(): void
}

interface LineNeeds {
  readonly open: (address: string) => Stream
  readonly ask: (address: string) => Promise<Change>
  readonly random: () => number
  /** The version that the page was made at, if it says so. */
  readonly version: string | null
  readonly told: (change: Change) => void
}

/** Two heartbeats of the laptop that did not come. */
const SILENCE_MS = 30_000
const FAILS_UNTIL_ASKING = 2
const ASK_MS = 5_000
/** Sooner while no answer comes: nobody may tell the phone that it is in reach again, and its taps wait for that. */
const ASK_AWAY_MS = 1_200
const LONGEST_JITTER_MS = 3_000
const JITTER_ONLINE_MS = 1_000
/** How long a page that asks leaves the stream alone before it tries it again. */
const STREAM_AGAIN_MS = 15_000

/** The line of one page to the laptop; shut until it is opened. */
export function lineTo(nightId: string, { open, ask, random, version: first, told }: LineNeeds) {
  const address = `/api/nights/${nightId}`
  const [silence, comingBack] = [timer(), timer()]
  const asking = asker({ ask: () => ask(since('changes')), random, told: (change) => void (isOpen && tell(change)) })
  let version = first
  let stream: Stream | null = null
  let isOpen = false
  let fails = 0

  const since = (path: string): string => `${address}/${path}${version === null ? '' : `?since=${version}`}`

  function tell(change: Change): void {
    const news = newIn(change, version)
    if (news === null) return
    version = news.version
    told(news)
  }

  const heard: Readonly<Record<string, (event: Said) => void>> = {
    marks: ({ data, lastEventId }) => tell({ ...JSON.parse(data), version: lastEventId }),
    programme: ({ lastEventId }) => tell({ version: lastEventId, isProgramme: true }),
    beat: () => {},
  }

  function connect(): void {
    hangUp()
    const own = open(since('live'))
    stream = own
    let isHeard = false
    for (const [name, run] of Object.entries(heard)) {
      own.addEventListener(name, (event) => {
        if (own !== stream) return
        isHeard = true
        fails = 0
        asking.stop()
        silence.start(SILENCE_MS, fallSilent)
        run(event)
      })
    }
    own.addEventListener('error', () => own === stream && lose(isHeard))
    silence.start(SILENCE_MS, fallSilent)
  }

  /** Comes back by itself and not as the browser would: forty phones lose their streams at the same moment. */
  function lose(wasHeard: boolean): void {
    hangUp()
    fails += wasHeard ? 0 : 1
    const isAsking = fails >= FAILS_UNTIL_ASKING
    if (isAsking) asking.often()
    comingBack.start((isAsking ? STREAM_AGAIN_MS : 0) + random() * LONGEST_JITTER_MS, connect)
  }

  function fallSilent(): void {
    hangUp()
    fails = FAILS_UNTIL_ASKING
    asking.often()
    comingBack.start(STREAM_AGAIN_MS, connect)
  }

  function hangUp(): void {
    silence.stop()
    stream?.close()
    stream = null
  }

  return {
    open(): void {
      if (isOpen) return
      isOpen = true
      connect()
    },
    shut(): void {
      isOpen = false
      for (const each of [comingBack, asking]) each.stop()
      hangUp()
    },
    /** Tries the stream at once, when the phone says that its network is back; a page that asks does not rely on it. */
    retry(): void {
      if (!isOpen) return
      hangUp()
      comingBack.start(random() * JITTER_ONLINE_MS, () => {
        connect()
        if (fails >= FAILS_UNTIL_ASKING) asking.once()
      })
    },
    /** Asks once, beside the stream. */
    ask: asking.once,
  }
}

interface AskerNeeds {
  readonly ask: () => Promise<Change>
  readonly random: () => number
  readonly told: (change: Change) => void
}

/** Asks the laptop for what is new: once, or again and again until it is stopped. */
function asker({ ask, random, told }: AskerNeeds) {
  const again = timer()
  let isAnswered = true

  function once(): void {
    const answered = (change: Change): void => {
      isAnswered = true
      told(change)
    }
    const unanswered = (): void => {
      isAnswered = false
    }
    ask().then(answered, unanswered)
  }

  return {
    once,
    often: (): void => again.repeat(() => (isAnswered ? ASK_MS : ASK_AWAY_MS) * (0.8 + 0.4 * random()), once),
    stop: again.stop,
  }
}

/** A change without what was told before, since streams and answers overtake each other; null when it came too late. */
function newIn(change: Change, version: string | null): Change | null {
  const [[epoch, seq], [newEpoch, newSeq]] = [partsOf(version ?? ''), partsOf(change.version)]
  if (epoch !== newEpoch) return change
  if (newSeq < seq) return null
  return change.isSnapshot || !change.marks
    ? change
    : { ...change, marks: change.marks.filter((mark) => mark.seq > seq) }
}

function partsOf(version: string): readonly [epoch: string, seq: number] {
  const dot = version.lastIndexOf('.')
  return [version.slice(0, dot), Number(version.slice(dot + 1))]
}
