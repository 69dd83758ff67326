import type { NearThing, OneThing, SourceCounts, StarFacts } from '../../desk/thing-kinds.ts'
import type { ThingSubject } from '../../drawings/thing.ts'
import type { WorldEvent } from '../../tours/light-left.ts'
import type { Night } from '../../tours/night.ts'
import type { Site } from '../../tours/site.ts'
import type { ObjectHit, ShowObject, Story } from '../../tours/target.ts'

/** A thing, what is told of it, and from where it is looked at; `story`, `star` and `sources` are left open where there are none. */
export interface ObjectSubject {
  readonly thing: ShowObject | ObjectHit
  readonly story: Story | undefined
  readonly star: StarFacts | undefined
  readonly picture: ThingSubject
  readonly one: OneThing
  readonly near: readonly NearThing[]
  readonly sources: SourceCounts | null
  readonly places: readonly Site[]
  readonly nights: readonly Night[]
  readonly look: 'day' | 'lamp'
  readonly worldEvents: readonly WorldEvent[]
}
