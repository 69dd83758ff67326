import { radians } from '../sky/angles.ts'
import { type Horizontal, vectorOf } from '../sky/horizontal.ts'
import { angleDeg, dot, type Vector } from '../sky/vectors.ts'
import { type FinderStar, type HopsView, isStart, isUsable, isWayClear, standsOut } from './hops-star.ts'

export interface ChainNeeds extends HopsView {
  readonly target: Horizontal
  /** True where the finder shows the target itself. */
  readonly isInFinder: boolean
  readonly stars: readonly FinderStar[]
}

/** The stars of a way in their order, the first one bright. */
export type Chain = readonly [FinderStar, ...FinderStar[]]

// Choices; common practice, no source.
const MOST_HOPS = 4
const LONGEST_FIELDS = 1.5
const LONGEST_EYE_DEG = 25
/** So near to a bright star a target needs no other. */
const DIRECT_FIELDS = 1

/** A star on the way, and the cheapest way on from there. */
interface Link {
  readonly node: Node
  readonly cost: number
  readonly next: Link | null
}

interface Node {
  readonly star: FinderStar
  readonly vector: Vector
  readonly isStart: boolean
  readonly standsOut: boolean
}

/** The easiest way over stars that stand out, one hop where the target is within a field of a bright star; null where there is none. */
export function chainTo(needs: ChainNeeds): Chain | null {
  const nodes = needs.stars.filter((star) => isUsable(star, needs)).map((star) => nodeOf(star, needs))
  let links = nodes.flatMap((node) => lastLink(node, needs))
  const direct = links.filter(({ node }) => fieldsTo(node.vector, vectorOf(needs.target), needs) <= DIRECT_FIELDS)
  let best = cheapest(direct)
  if (best !== null) return chainOf(best)
  best = cheapest(links)
  for (let hops = 2; hops <= MOST_HOPS; hops++) {
    const onward = links.filter(({ node }) => node.standsOut)
    links = nodes.flatMap((node) => linkBefore(node, onward, needs) ?? [])
    best = cheapest([...links, ...(best === null ? [] : [best])])
  }
  return best === null ? null : chainOf(best)
}

/** The one bright star from which bare eyes go to a target that they see; null where none is near. */
export function eyeChainTo(needs: ChainNeeds): Chain | null {
  const starts = needs.stars.filter((star) => isStart(star, needs)).map((star) => nodeOf(star, needs))
  const links = starts.flatMap((node): Link[] => {
    const apart = angleDeg(node.vector, vectorOf(needs.target))
    const isNear = apart <= LONGEST_EYE_DEG && isWayClear(node.star.direction, needs.target, needs)
    return isNear ? [{ node, cost: apart / 10, next: null }] : []
  })
  const best = cheapest(links)
  return best === null ? null : chainOf(best)
}

const nodeOf = (star: FinderStar, needs: ChainNeeds): Node => ({
  star,
  vector: vectorOf(star.direction),
  isStart: isStart(star, needs),
  standsOut: standsOut(star, needs.stars, needs),
})

const fieldsTo = (from: Vector, to: Vector, { finderFieldDeg }: HopsView): number => angleDeg(from, to) / finderFieldDeg

/** What the last hop costs: where the target is too faint for the finder, a short one errs less. */
function lastLink(node: Node, needs: ChainNeeds): Link[] {
  const fields = fieldsTo(node.vector, vectorOf(needs.target), needs)
  const isReached = fields <= LONGEST_FIELDS && isWayClear(node.star.direction, needs.target, needs)
  const slope = needs.isInFinder ? 1.2 : 2.5
  const cost = 1 + slope * Math.max(0, fields - 0.4) + 3 * Math.max(0, fields - 1)
  return isReached ? [{ node, cost, next: null }] : []
}

/** The cheapest way on from a star over one more star. */
function linkBefore(node: Node, onward: readonly Link[], needs: ChainNeeds): Link | null {
  const leastCosine = Math.cos(radians(LONGEST_FIELDS * needs.finderFieldDeg))
  let best: Link | null = null
  for (const next of onward) {
    if (dot(node.vector, next.node.vector) < leastCosine || isOnWay(node, next)) continue
    const cost = next.cost + hopCost(node, next.node, needs)
    if (cost >= (best?.cost ?? Number.POSITIVE_INFINITY)) continue
    if (isWayClear(node.star.direction, next.node.star.direction, needs)) best = { node, cost, next }
  }
  return best
}

const isOnWay = (node: Node, link: Link): boolean =>
  link.node === node || (link.next !== null && isOnWay(node, link.next))

const hopCost = (from: Node, to: Node, needs: HopsView): number =>
  1 + 1.6 * Math.max(0, fieldsTo(from.vector, to.vector, needs) - 0.8) + 0.5 * Math.max(0, to.star.magnitude - 3)

/** What it costs to point a star out to begin with. */
const startCost = ({ magnitude, name, isDesignated, isBrightest }: FinderStar): number =>
  0.4 * Math.max(0, magnitude - 1) +
  0.9 * Math.max(0, magnitude - 2) +
  (name === null || isDesignated ? 0.6 : 0) +
  (isBrightest ? 0 : 0.2)

function cheapest(links: readonly Link[]): Link | null {
  let best: Link | null = null
  for (const link of links) if (link.node.isStart && (best === null || costOf(link) < costOf(best))) best = link
  return best
}

const costOf = ({ node, cost }: Link): number => cost + startCost(node.star)

const chainOf = ({ node, next }: Link): Chain => (next === null ? [node.star] : [node.star, ...chainOf(next)])
