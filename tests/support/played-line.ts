import { advanceLines, beginLines } from '../../server/tours/simulation.ts'
import type { LineEvening, LineInput } from '../../server/tours/simulation-lines.ts'

/** A whole evening, played so many acts at a time. */
export function play(input: LineInput, acts = 1_000): LineEvening {
  const evening = beginLines(input)
  while (advanceLines(evening, acts));
  return evening
}
