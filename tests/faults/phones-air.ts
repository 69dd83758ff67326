/** What a laptop answered, as it goes through the air. */
export interface Answered {
  readonly status: number
  readonly text: string
}

interface Parcel {
  readonly phone: number
  readonly body: string
  readonly settle: (answer: Answered | null) => void
}

const FAULTS = ['dropped', 'unanswered', 'doubled', 'overtaken', 'cut'] as const
type Fault = (typeof FAULTS)[number]

interface AirNeeds {
  readonly random: () => number
  /** The part of all requests that goes wrong, 0 to 1. */
  readonly share: number
  /** True for a phone that is out of reach now. */
  readonly isAway: (phone: number) => boolean
  readonly deliver: (phone: number, body: string) => Promise<Answered>
}

export type Air = ReturnType<typeof faultyAir>

/**
 * The air between phones and laptop. What is sent at one moment arrives in any order; a part of it goes wrong: `dropped`
 * before it arrives; `unanswered`, kept by the laptop, the answer lost; `doubled`, now and once more later; `overtaken`,
 * given up by the phone, and arriving after a later request of the same phone has been answered; `cut`, the answer broken off.
 */
export function faultyAir({ random, share, isAway, deliver }: AirNeeds) {
  const sent: Parcel[] = []
  const late: Parcel[] = []
  const counts: Record<Fault | 'requests' | 'away', number> = {
    requests: 0,
    away: 0,
    dropped: 0,
    unanswered: 0,
    doubled: 0,
    overtaken: 0,
    cut: 0,
  }
  const pick = <Thing>(list: readonly Thing[]): Thing | undefined => list[Math.floor(random() * list.length)]

  async function carry({ phone, body, settle }: Parcel): Promise<void> {
    counts.requests++
    if (isAway(phone)) {
      counts.away++
      return settle(null)
    }
    const fault = random() < share ? pick(FAULTS) : undefined
    if (fault !== undefined) counts[fault]++
    if (fault === 'overtaken') late.push({ phone, body, settle })
    if (fault === 'dropped' || fault === 'overtaken') return settle(null)
    const answer = await deliver(phone, body)
    if (fault === 'doubled') late.push({ phone, body, settle })
    if (fault === 'unanswered') return settle(null)
    if (fault === 'cut') return settle({ ...answer, text: answer.text.slice(0, random() * answer.text.length) })
    settle(answer)
    if (answer.status === 200) await bringLate((parcel) => parcel.phone === phone)
  }

  async function bringLate(isDue: (parcel: Parcel) => boolean): Promise<void> {
    const due = late.filter(isDue)
    late.splice(0, late.length, ...late.filter((parcel) => !isDue(parcel)))
    for (const { phone, body } of due) await deliver(phone, body)
  }

  return {
    counts,
    send: (parcel: Parcel): void => void sent.push(parcel),
    /** Carries all that was sent at this moment, in some order. */
    async carryAll(): Promise<void> {
      const now = sent.splice(0)
      if (share > 0) now.sort(() => random() - 0.5)
      for (const parcel of now) await carry(parcel)
    },
    /** Brings what is still under way after everybody has gone home. */
    bringRest: () => bringLate(() => true),
  }
}
