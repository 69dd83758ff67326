import { chanceOf, type Dazzle } from './chance.ts'
import { UNLIMITED_MAG } from './impression.ts'
import { normalShare } from './normal.ts'

/** What an operator says of a group at the eyepiece: they saw it, half of them did, they did not. */
export type Outcome = 'they' | 'half' | 'not'

/** One such word, with what the model gave for that thing, view and moment. */
export interface Trial {
  /** The thing looked at; all that is said of one thing shares whatever is wrong with its light in the catalogue. */
  readonly thing: string
  /** Magnitudes by which its light stands above what half of a laboratory's observers see, the newcomer factor left out. */
  readonly lightMag: number
  /** The same for what no light helps; 99 where nothing of the kind limits. */
  readonly otherMag: number
  readonly dazzle: Dazzle
  readonly outcome: Outcome
}

/** How many times the laboratory threshold newcomers need, with the range that holds the true value in four cases of five. */
export interface FactorRange {
  readonly factor: number
  readonly low: number
  readonly high: number
}

export interface NewcomerFactor extends FactorRange {
  /** Words that were given in all, and those whose chance depends on the factor by so much that they tell something. */
  readonly trials: number
  readonly telling: number
  readonly prior: FactorRange
}

/** The published range, 2.4 to 5 about 4 (Crumey 2014 with Schaefer 1990; Blackwell 1952 and 1971), read as: as often over 4 as under, one in ten under 2.4, one in ten over 5. */
export const PRIOR: FactorRange = { factor: 4, low: 2.4, high: 5 }

/*
 * Choices, for no published experiment has asked visitors at an eyepiece: a word is about ten looks; `they` is eight or
 * more of them, `not` two or fewer; one word in twenty is a slip and could be any of the three; the light of one thing
 * is known to half a magnitude, the same half for every word about it.
 */
const LOOKS = 10
const MOST_LOOKS = 8
const SLIP = 0.05
const THING_MAG = 0.5
/** A word tells something when the chance differs by so much between the two ends of the published range. */
const TELLING_CHANCE = 0.05

const TAIL_DEVIATIONS = 1.2816 // a tenth of a normal crowd lies beyond
const STEP_MAG = 0.02
const CELLS_BELOW = 75 // down to a factor of 1
const CELLS = 112 // up to 7.9
const THING_CELLS = 75 // three deviations of THING_MAG

const magOf = (factor: number): number => 2.5 * Math.log10(factor)
const middleMag = magOf(PRIOR.factor)
const borderMag = (cell: number): number => middleMag + (cell - CELLS_BELOW) * STEP_MAG

/** The share of the prior up to a factor given in magnitudes: two halves of normal curves that meet at 4. */
function priorShare(mag: number): number {
  const tailMag = mag < middleMag ? middleMag - magOf(PRIOR.low) : magOf(PRIOR.high) - middleMag
  return normalShare(((mag - middleMag) * TAIL_DEVIATIONS) / tailMag)
}

const PRIOR_CELLS = Array.from({ length: CELLS }, (_, i) => priorShare(borderMag(i + 1)) - priorShare(borderMag(i)))

/** How likely each slip of one thing's light is, -3 to 3 deviations in steps of the grid. */
const THING_WEIGHTS = Array.from({ length: 2 * THING_CELLS + 1 }, (_, k) =>
  Math.exp(-0.5 * (((k - THING_CELLS) * STEP_MAG) / THING_MAG) ** 2),
)

/**
 * The newcomer factor from words of the field by Bayes on a grid of its logarithm: median, and the tenth and ninetieth
 * per cent. Only words about things that light decides count at all; without any the prior comes back. A `they` never
 * raises it, a `not` never lowers it.
 */
export function newcomerFactor(trials: readonly Trial[]): NewcomerFactor {
  const byThing = new Map<string, Trial[]>()
  for (const trial of trials.filter(isDecidedByLight)) {
    byThing.set(trial.thing, [...(byThing.get(trial.thing) ?? []), trial])
  }
  const logs = [...byThing.values()].map(thingLogs)
  const sums = PRIOR_CELLS.map((_, i) => logs.reduce((sum, log) => sum + (log[i] ?? 0), 0))
  const top = Math.max(...sums)
  const masses = PRIOR_CELLS.map((share, i) => share * Math.exp((sums[i] ?? 0) - top))
  return {
    factor: quantile(masses, 0.5),
    low: quantile(masses, 0.1),
    high: quantile(masses, 0.9),
    trials: trials.length,
    telling: trials.filter(isTelling).length,
    prior: PRIOR,
  }
}

/** True when nothing but light limits the thing, whatever the factor. */
const isDecidedByLight = ({ lightMag, otherMag }: Trial): boolean => otherMag >= lightMag

const chanceAtMag = ({ lightMag, dazzle }: Trial, mag: number): number =>
  chanceOf(lightMag - mag, UNLIMITED_MAG, dazzle)

const isTelling = (trial: Trial): boolean =>
  isDecidedByLight(trial) &&
  chanceAtMag(trial, magOf(PRIOR.low)) - chanceAtMag(trial, magOf(PRIOR.high)) >= TELLING_CHANCE

/** By cell of the grid the logarithm of how likely all the words about one thing are, up to a constant. */
function thingLogs(trials: readonly Trial[]): readonly number[] {
  const wide = Array.from({ length: CELLS + 2 * THING_CELLS }, (_, j) => {
    const mag = borderMag(j - THING_CELLS) + STEP_MAG / 2
    return trials.reduce((sum, trial) => sum + Math.log(outcomeShare(trial.outcome, chanceAtMag(trial, mag))), 0)
  })
  const top = Math.max(...wide)
  const likely = wide.map((log) => Math.exp(log - top))
  return PRIOR_CELLS.map((_, i) =>
    Math.log(THING_WEIGHTS.reduce((sum, weight, k) => sum + weight * (likely[i + k] ?? 0), 0)),
  )
}

/** How likely an operator says so of a group in which each sees it with this chance. */
function outcomeShare(outcome: Outcome, chance: number): number {
  const [most, fewest] = [mostShare(chance), mostShare(1 - chance)]
  const plain = outcome === 'they' ? most : outcome === 'not' ? fewest : 1 - most - fewest
  return (1 - SLIP) * Math.max(0, plain) + SLIP / 3
}

/** The share of groups of ten in which eight or more see it (binomial). */
function mostShare(chance: number): number {
  let [sum, ways] = [0, 1]
  for (let others = 0; others <= LOOKS - MOST_LOOKS; others++) {
    sum += ways * chance ** (LOOKS - others) * (1 - chance) ** others
    ways = (ways * (LOOKS - others)) / (others + 1)
  }
  return sum
}

/** The factor under which this share of the masses lies; even within a cell. */
function quantile(masses: readonly number[], share: number): number {
  let left = share * masses.reduce((sum, mass) => sum + mass, 0)
  for (const [i, mass] of masses.entries()) {
    if (left <= mass) return 10 ** (0.4 * (borderMag(i) + (STEP_MAG * left) / mass))
    left -= mass
  }
  return 10 ** (0.4 * borderMag(CELLS))
}
