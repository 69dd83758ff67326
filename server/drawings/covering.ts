/** The outer edges of something on paper. */
export interface Edges {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** A dot or a piece of a line that words had better not stand on, and how much it matters. */
export interface Obstacle {
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly weight: number
}

/** True when two have room in common, or less air between them than asked. */
export const overlaps = (a: Edges, b: Edges, airPx = 0): boolean =>
  a.left < b.right + airPx && b.left < a.right + airPx && a.top < b.bottom + airPx && b.top < a.bottom + airPx

/** How much words between such edges would cover. */
export const coverCost = ({ left, right, top, bottom }: Edges, obstacles: readonly Obstacle[]): number =>
  obstacles.reduce(
    (sum, { x, y, radiusPx, weight }) =>
      x > left - radiusPx && x < right + radiusPx && y > top - radiusPx && y < bottom + radiusPx ? sum + weight : sum,
    0,
  )

type Place = readonly [x: number, y: number]

/** A line as obstacles, one at every step. */
export function obstaclesAlong(
  [x1, y1]: Place,
  [x2, y2]: Place,
  { stepPx, ...each }: Pick<Obstacle, 'radiusPx' | 'weight'> & { readonly stepPx: number },
): readonly Obstacle[] {
  const count = Math.ceil(Math.hypot(x2 - x1, y2 - y1) / stepPx)
  return Array.from({ length: count }, (_, k) => {
    const share = (k + 0.5) / count
    return { x: x1 + share * (x2 - x1), y: y1 + share * (y2 - y1), ...each }
  })
}
