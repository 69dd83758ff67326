/** What a bare eye calls the colour of a bright star, from blue to red; `colour.` and the name is its words key. */
const COLOURS = ['blue-white', 'white', 'pale-yellow', 'yellow', 'orange', 'orange-red'] as const
export type StarColour = (typeof COLOURS)[number]

// Common practice, no source: Rigel, Vega, Procyon, Capella, Arcturus and Antares are called these six.
const BELOW_BV = [-0.02, 0.3, 0.65, 1.05, 1.6, Number.POSITIVE_INFINITY]
/** Neighbouring colours are told apart by those who know them only. */
const PLAIN_STEPS = 2

/** The colour of a star of this B-V in plain words; null where B-V is unknown. */
export const starColour = (bv: number | null): StarColour | null =>
  bv === null ? null : (COLOURS[BELOW_BV.findIndex((below) => bv < below)] ?? null)

/** True when anyone sees that two colours differ; an unknown one differs from none. */
export const areColoursPlain = (one: StarColour | null, other: StarColour | null): boolean =>
  one !== null && other !== null && Math.abs(COLOURS.indexOf(one) - COLOURS.indexOf(other)) >= PLAIN_STEPS
