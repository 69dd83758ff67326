/** What of a thing differs from a table. */
type What = 'place' | 'name' | 'angle' | 'constellation'

/** One thing that differs, in words. */
export interface Difference {
  readonly key: string
  readonly name: string
  readonly what: What
  readonly says: string
}

/** A difference that is known, and why it is right that it stays. */
export interface Explanation {
  readonly key: string
  readonly what: string
  readonly why: string
}

/** What a comparison found: what differs, how much was compared, and what stands on one side alone. */
export interface Comparison {
  readonly differences: readonly Difference[]
  readonly compared: number
  readonly onlyInTable: readonly string[]
  readonly onlyInList: readonly string[]
}

/** The differences parted into those that someone has explained, with the reason, and the rest. */
export function parted(differences: readonly Difference[], explanations: readonly Explanation[]) {
  const whys = new Map(explanations.map(({ key, what, why }) => [`${key} ${what}`, why]))
  const whyOf = ({ key, what }: Difference): string | undefined => whys.get(`${key} ${what}`)
  return {
    explained: differences.flatMap((difference) => {
      const why = whyOf(difference)
      return why === undefined ? [] : [{ difference, why }]
    }),
    open: differences.filter((difference) => whyOf(difference) === undefined),
  }
}
