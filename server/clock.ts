/** The evening's clock: real, or a rehearsal that starts at a given instant and may run faster. */
export interface Clock {
  /** The evening's present instant. */
  now(): Date
  /** True when the clock is a rehearsal and not the laptop's own time. */
  readonly isRehearsal: boolean
  /** How many evening seconds pass in one real second; 1 for the real clock. */
  readonly speed: number
}

/** The laptop's own clock. */
export const realClock = (): Clock => ({ now: () => new Date(Date.now()), isRehearsal: false, speed: 1 })

/** A clock that shows `startsAt` at this moment and then runs `speed` times as fast as the laptop's own (0 or more). */
export function rehearsalClock(startsAt: Date, speed = 1): Clock {
  const begun = Date.now()
  return {
    now: () => new Date(startsAt.getTime() + (Date.now() - begun) * speed),
    isRehearsal: true,
    speed,
  }
}
