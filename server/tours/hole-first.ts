import type { HoleStation } from './hole.ts'
import type { ShowObject } from './target.ts'

/**
 * The same lists with the first ones spread over the row: no thing stands first at more telescopes than may show it at
 * once, while another that anyone sees is left. The telescope that shows a thing best keeps it.
 */
export function firstOnes(
  stations: readonly HoleStation[],
  objects: readonly Pick<ShowObject, 'key' | 'atOnce'>[],
): readonly HoleStation[] {
  const left = new Map(objects.map(({ key, atOnce }) => [key, atOnce]))
  const firsts = new Map<string, string>()
  const easy = stations.flatMap(({ stationId, lines }) =>
    lines.filter(({ isEasy }) => isEasy).map((line, rank) => ({ stationId, line, rank })),
  )
  for (const { stationId, line } of easy.sort((a, b) => a.rank - b.rank || b.line.view - a.line.view)) {
    const free = left.get(line.targetKey) ?? 0
    if (firsts.has(stationId) || free < 1) continue
    firsts.set(stationId, line.targetKey)
    left.set(line.targetKey, free - 1)
  }
  return stations.map(({ stationId, lines }) => {
    const first = firsts.get(stationId)
    return { stationId, lines: lines.toSorted((a, b) => Number(b.targetKey === first) - Number(a.targetKey === first)) }
  })
}
