import type { InjectOptions } from 'fastify'
import type { Night } from '../../server/tours/night.ts'
import type { PlannedStop, PlayedStation } from './played-plan.ts'

export const OPENS_MS = Date.parse('2026-12-17T17:00:00Z')
export const THE_HOST = 'host'
export const minOf = (at: string): number => (Date.parse(at) - OPENS_MS) / 60_000

/** What the service answered. */
export interface Asked {
  readonly statusCode: number
  readonly headers: Readonly<Record<string, unknown>>
  readonly body: string
  // biome-ignore lint/suspicious/noExplicitAny: what an address answers is known by whoever asks it
  json(): any
}

export interface PlayedNeeds {
  /** Asks the service, within this process or over a real connection. */
  readonly ask: (options: InjectOptions) => Promise<Asked>
  readonly night: Night
  readonly hostCookie: string
  readonly code: string
  /** Moves the clock of the evening there, or waits until it is. */
  readonly moveTo: (at: string) => void | Promise<void>
}

/** What the script wrote down by itself while it played. */
export interface PlayedNotes {
  readonly stations: readonly PlayedStation[]
  readonly came: { adults: number; children: number }
  readonly left: { adults: number; children: number }
  peak: { people: number; min: number }
  readonly waits: {
    readonly min: number
    readonly stationId: string
    readonly inLine: number
    readonly waitMin: number
  }[]
  readonly acts: Map<string, number>
  readonly seen: Map<string, number>
}

/** An act that was kept, and when it happened. */
export interface Act {
  readonly key: string
  readonly min: number
}

/** What is at hand while a night is played. */
export interface Stage {
  readonly notes: PlayedNotes
  readonly mark: (name: string, kind: string, stationId: string | null, payload: object) => Promise<Act>
  readonly planNow: () => Promise<readonly PlannedStop[]>
  /** Lets the stations go by the programme up to a minute. */
  readonly turnTo: (min: number) => void
  readonly needs: PlayedNeeds
  readonly here: { adults: number; children: number }
  readonly waitsFor: string
}
