/** Words for colours that newcomers cannot tell from one another side by side; what is in none of them stands for itself. */
const FAMILIES = [/^(pale|white|blue-white|whitish)/, /blue|green/, /red|crimson|copper/, /gold|orange|yellow/] as const

const familyOf = (colour: string): number | string => {
  const family = FAMILIES.findIndex((words) => words.test(colour))
  return family < 0 ? colour : family
}

/** Two stars whose colours a newcomer sees to be two: gold beside blue, not yellow beside orange (common practice, no source). */
export const isColourContrast = ([a, b]: readonly [string, string]): boolean => familyOf(a) !== familyOf(b)
