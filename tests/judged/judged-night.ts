import type { HalfHour, NightDraft } from '../../server/tours/night.ts'
import type { SiteDraft } from '../../server/tours/site.ts'
import type { TelescopeDraft } from '../../server/tours/telescope.ts'

/** From, to (wall clock), and what a practitioner would have shown there then: one of these, as good as each other; with the reason. */
export type WrittenSpan = readonly [from: string, to: string, showpieces: readonly string[], why: string]

/** What one station was to show, by its name. Times without a span were left to the operator. */
export interface WrittenStation {
  readonly station: string
  readonly spans: readonly WrittenSpan[]
}

/**
 * An invented public night with the programme that a practitioner wrote down for it from the places of Sun, Moon, planets
 * and showpieces alone, before any program had built one. Common practice, no source.
 */
export interface JudgedNight {
  readonly title: string
  readonly site: SiteDraft
  readonly telescopes: readonly TelescopeDraft[]
  /** `telescopeId` is the place of the telescope in `telescopes`, counted from 0 and written as text. */
  readonly night: Omit<NightDraft, 'siteId' | 'title'>
  readonly written: readonly WrittenStation[]
}

/** A level skyline of hedges with what stands higher in it, as `[azimuthDeg, altitudeDeg, name]` by rising azimuth. */
export const skyline = (...points: readonly (readonly [number, number, string])[]): SiteDraft['horizon'] =>
  points.map(([azimuthDeg, altitudeDeg, name]) => ({ azimuthDeg, altitudeDeg, name }))

/** The same people in every half hour from an opening on. */
export function visitors(opens: string, halfHours: number, adults: number, children: number): HalfHour[] {
  const [hour = 0, minute = 0] = opens.split(':').map(Number)
  return Array.from({ length: halfHours }, (_, i) => {
    const at = hour * 60 + minute + 30 * i
    const text = (value: number) => String(value).padStart(2, '0')
    const startsAt = `${text(Math.floor(at / 60) % 24)}:${text(at % 60)}`
    // Children come first and leave first.
    const there = Math.round(children * Math.max(0, 1 - i / halfHours))
    return { startsAt, adults, children: there, seated: i === 0 ? 1 : 2 }
  })
}

/** A row of telescopes in the order of the list; the names are the stations'. */
export const row = (
  ...names: readonly (readonly [name: string, isForChildren?: 'children'])[]
): NightDraft['stations'] =>
  names.map(([name, forChildren], i) => ({
    name,
    kind: 'telescope',
    telescopeId: String(i),
    operator: '',
    isForChildren: forChildren === 'children',
  }))
