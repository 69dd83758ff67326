/** A stop as the API tells it. */
export interface PlannedStop {
  readonly stationId: string
  readonly targetKey: string
  readonly aim: string
  readonly startsAt: string
  readonly endsAt: string
  readonly looks: number
}

/** What the script notes of one thing that a station showed. */
interface Noted {
  readonly stationId: string
  readonly targetKey: string
  readonly fromMin: number
  readonly toMin: number
  readonly isSaid: boolean
  readonly looks: number
}

interface On {
  readonly targetKey: string
  readonly aim: string
  readonly fromMin: number
  /** Taken from the programme as it was when this began; null for what is not in it. */
  readonly stop: PlannedStop | null
  endsWithPlan: boolean
  isSaid: boolean
  troubleMin: number
}

/** One station as the script keeps it, minute after minute, on a sheet of its own. */
export class PlayedStation {
  readonly noted: Noted[] = []
  on: On | null = null
  private troubleSinceMin: number | null = null
  private isOut = false
  private readonly skipped = new Set<PlannedStop>()
  private readonly timings: { readonly min: number; readonly people: number; readonly seconds: number }[] = []

  readonly id: string
  private plan: readonly PlannedStop[]
  private readonly minOf: (at: string) => number

  constructor(id: string, plan: readonly PlannedStop[], minutesOf: (at: string) => number) {
    this.id = id
    this.plan = plan
    this.minOf = minutesOf
  }

  get own(): readonly PlannedStop[] {
    return this.plan.filter(({ stationId }) => stationId === this.id)
  }

  goBy(plan: readonly PlannedStop[]): void {
    this.plan = plan
  }

  /** What the programme does by itself in this minute: ends first. */
  turn(min: number): void {
    for (const stop of this.own)
      if (this.minOf(stop.endsAt) === min && this.shows(stop) && this.on?.endsWithPlan) this.end(min)
    for (const stop of this.own) {
      if (this.minOf(stop.startsAt) !== min || this.skipped.has(stop) || this.isOut) continue
      if (this.shows(stop) && this.on) this.on.endsWithPlan = true
      else this.begin(min, stop.targetKey, stop.aim, stop)
    }
  }

  say(min: number, targetKey: string, aim: string): void {
    this.endTrouble(min)
    const now = this.own.find((stop) => this.minOf(stop.startsAt) <= min && min < this.minOf(stop.endsAt))
    const stop = now?.targetKey === targetKey && now.aim === aim ? now : null
    if (this.on?.targetKey !== targetKey || this.on.aim !== aim) this.begin(min, targetKey, aim, stop)
    if (this.on) this.on.isSaid = true
  }

  saySeen(): void {
    if (this.on) this.on.isSaid = true
  }

  finish(min: number): void {
    this.saySeen()
    this.end(min)
  }

  skip(stop: PlannedStop): void {
    this.skipped.add(stop)
  }

  trouble(min: number): void {
    this.troubleSinceMin ??= min
  }

  time(min: number, people: number, seconds: number): void {
    this.timings.push({ min, people, seconds })
  }

  leave(min: number): void {
    this.end(min)
    this.isOut = true
  }

  end(min: number): void {
    if (this.on === null) return
    const { targetKey, fromMin, isSaid } = this.on
    if (min > fromMin) {
      this.noted.push({ stationId: this.id, targetKey, fromMin, toMin: min, isSaid, looks: this.looksTo(min) })
    }
    this.on = null
  }

  /** Seconds a look by the timings that stand for a time; null without any. */
  cycleSec(fromMin: number, toMin: number): number | null {
    const past = this.timings.filter(({ min }) => min <= toMin)
    const during = past.filter(({ min }) => min >= fromMin)
    const used = during.length > 0 ? during : past.slice(-1)
    const people = used.reduce((sum, timing) => sum + timing.people, 0)
    return people === 0 ? null : used.reduce((sum, { seconds }) => sum + seconds, 0) / people
  }

  private shows(stop: PlannedStop): boolean {
    return this.on?.targetKey === stop.targetKey && this.on.aim === stop.aim
  }

  private begin(min: number, targetKey: string, aim: string, stop: PlannedStop | null): void {
    this.end(min)
    this.on = { targetKey, aim, fromMin: min, stop, endsWithPlan: stop !== null, isSaid: false, troubleMin: 0 }
  }

  private endTrouble(min: number): void {
    if (this.troubleSinceMin !== null && this.on) this.on.troubleMin += min - this.troubleSinceMin
    this.troubleSinceMin = null
  }

  /** By hand: people who were timed make so many in the minutes, else a part of what the programme promised. */
  private looksTo(min: number): number {
    if (this.on === null) return 0
    const { fromMin, troubleMin, stop } = this.on
    const minutes = min - fromMin - troubleMin
    const cycle = this.cycleSec(fromMin, min)
    if (cycle !== null) return Math.round((minutes * 60) / cycle)
    if (stop === null) throw new Error('The script times every station that shows what is not planned')
    return Math.round((stop.looks * minutes) / (this.minOf(stop.endsAt) - this.minOf(stop.startsAt)))
  }
}
