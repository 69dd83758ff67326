import { join } from 'node:path'
import vm from 'node:vm'
import { build } from 'esbuild'
import { seededRandom } from '../../server/sky/random.ts'
import type { delivery as Delivery } from '../../views/scripts/delivery.ts'
import type { Change, lineTo as LineTo } from '../../views/scripts/live.ts'
import type { Act, outbox as OutboxOf } from '../../views/scripts/outbox.ts'
import { phoneShelf } from '../faults/phones-shelf.ts'
import { phoneClock } from './phone-clock.ts'
import type { PhoneNet } from './phone-net.ts'

const ROOT = join(import.meta.dirname, '../..')
const JITTER_ONLINE_MS = 1_000
const PATIENCE_MS = 8_000

interface Scripts {
  readonly lineTo: typeof LineTo
  readonly outbox: typeof OutboxOf
  readonly delivery: typeof Delivery
}

/** The scripts of the pages for line and taps, as one script to run in a phone. */
export async function bundlePhone(): Promise<vm.Script> {
  const { outputFiles } = await build({
    stdin: {
      contents: ['live', 'outbox', 'delivery'].map((name) => `export * from './views/scripts/${name}.ts'`).join('\n'),
      resolveDir: ROOT,
    },
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'scripts',
    logLevel: 'error',
  })
  return new vm.Script(outputFiles[0]?.text ?? '')
}

interface SocketPhoneNeeds {
  readonly code: vm.Script
  readonly net: PhoneNet
  readonly nightId: string
  readonly seed: number
}

type HeardMark = NonNullable<Change['marks']>[number]

/** A phone on real sockets with the scripts of the pages in it, wired as a page of the field wires them, by a clock of its own. */
export class SocketPhone {
  readonly clock = phoneClock()
  readonly net: PhoneNet
  /** Marks that it was told of a second time, and marks that came after one that it was never told of. */
  readonly faults = { repeated: 0, missed: 0 }
  private readonly random: () => number
  private readonly line: ReturnType<typeof LineTo>
  private readonly box: ReturnType<typeof OutboxOf>
  private readonly deliver: ReturnType<typeof Delivery>
  private marks: HeardMark[] = []
  private version = ''
  private stations = ''

  constructor({ code, net, nightId, seed }: SocketPhoneNeeds) {
    this.net = net
    this.random = seededRandom(seed)
    const { lineTo, outbox, delivery } = scriptsIn(code, this.clock)
    const { random, clock } = this
    this.box = outbox(nightId, { shelf: phoneShelf(), nowMs: clock.nowMs, fetch: net.fetch })
    const later = (ms: number, run: () => Promise<void>) => {
      const id = clock.setTimeout(run, ms)
      return () => clock.clearTimeout(id)
    }
    this.deliver = delivery(this.box, { random, later, told: () => {} })
    const told = (change: Change) => this.hear(change)
    this.line = lineTo(nightId, { open: net.stream, ask: (path) => this.ask(path), random, version: null, told })
    this.line.open()
  }

  /** What it knows of the night, in words that all phones and the laptop have in common. */
  said(): string {
    return `${this.version} ${this.marks.length} ${this.stations}`
  }
  keys(): readonly string[] {
    return this.marks.map(({ key }) => key)
  }
  waiting(): number {
    return this.box.count()
  }

  tap(act: Omit<Act, 'doneAtMs'>): void {
    this.box.add({ ...act, doneAtMs: this.clock.nowMs() })
    void this.deliver.deliver()
  }

  /** What its browser says when the network is back. */
  online(): void {
    this.line.retry()
    this.clock.setTimeout(() => void this.deliver.deliverAfresh(), this.random() * JITTER_ONLINE_MS)
  }
  /** Its page is hidden, or shown again. */
  hide(): void {
    this.line.shut()
  }
  show(): void {
    this.line.open()
    void this.deliver.deliverAfresh()
  }

  end(): void {
    this.line.shut()
    this.net.end()
  }

  private async ask(path: string): Promise<Change> {
    const patience = new AbortController()
    const late = this.clock.setTimeout(() => patience.abort(), PATIENCE_MS)
    try {
      const response = await this.net.fetch(path, { signal: patience.signal })
      if (!response.ok) throw new Error(`Answered ${response.status}`)
      return JSON.parse(await response.text())
    } finally {
      this.clock.clearTimeout(late)
    }
  }

  private hear({ version, isSnapshot, marks = [], field }: Change): void {
    this.version = version
    if (isSnapshot) this.marks = []
    for (const mark of marks) {
      const newest = this.marks.at(-1)?.seq ?? null
      if (newest !== null && mark.seq <= newest) this.faults.repeated++
      else this.marks.push(mark)
      if (newest !== null && mark.seq > newest + 1) this.faults.missed++
    }
    if (field) this.stations = stationsTold(field.stations)
    if (isSnapshot === undefined) return
    if (isSnapshot) this.box.offerAgain(version, new Set(this.keys()))
    void this.deliver.deliverAfresh()
  }
}

/** What streams and answers both tell of the stations; streams leave out what was. */
export const stationsTold = (stations: readonly object[]): string =>
  JSON.stringify(stations.map((now) => ({ ...now, shown: undefined, skipped: undefined, lastMarkKey: undefined })))

function scriptsIn(code: vm.Script, clock: ReturnType<typeof phoneClock>): Scripts {
  const { setTimeout, clearTimeout } = clock
  const context = vm.createContext({ setTimeout, clearTimeout, AbortController })
  code.runInContext(context)
  return (context as unknown as { readonly scripts: Scripts }).scripts
}
