import type { Desk } from '../../desk/desk.ts'
import { isForTelescopes } from '../../tours/target.ts'

const HITS = 20

/** The things of the list for telescopes that answer to what was typed. */
export const telescopeHits = ({ objects }: Pick<Desk, 'objects'>, query: string) =>
  objects.search(query, HITS).filter((hit) => hit.isOutreach && isForTelescopes(hit))
