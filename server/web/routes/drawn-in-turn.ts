import { setImmediate } from 'node:timers/promises'
import type { FieldLayout } from '../../drawings/field.ts'
import { svgElement } from '../../drawings/svg.ts'
import type { Stop } from '../../tours/tour.ts'
import type { FoundStop, Picture, PrintPictures } from '../pages/print-pictures.ts'

const BLANK: Picture = { svg: svgElement('svg', {}), notes: [] }

/**
 * What is built from pictures, with pictures that are drawn one after the other, so that phones are answered in between.
 * `build` is called twice: first to hear which pictures it asks for, then with these.
 */
export async function drawnInTurn<Built>(
  pictures: PrintPictures,
  build: (pictures: PrintPictures) => Built,
): Promise<Built> {
  const field = turnOf(pictures.field, fieldKey, null)
  const finder = turnOf(pictures.finder, finderKey, null)
  const walk = turnOf(pictures.walk, (key) => key, null)
  const sky = turnOf(pictures.sky, (at) => String(at.getTime()), BLANK)
  const score = turnOf(pictures.score, () => '', [])
  const turns = [field, finder, walk, sky, score]
  build({ field: field.ask, finder: finder.ask, walk: walk.ask, sky: sky.ask, score: score.ask })
  for (const { drawAll } of turns) await drawAll()
  return build({ field: field.draw, finder: finder.draw, walk: walk.draw, sky: sky.draw, score: score.draw })
}

const finderKey = ({ targetKey, stationId }: FoundStop, at: Date, heightMm: number | null): string =>
  [targetKey, stationId, at.getTime(), heightMm].join()

const fieldKey = ({ stationId, targetKey, startsAt, setups }: Stop, layout: FieldLayout): string =>
  [layout, stationId, targetKey, startsAt.getTime(), ...setups.map(({ tubeId }) => tubeId)].join()

/** One kind of picture: `ask` notes it and answers a blank, `drawAll` draws what was noted, `draw` draws each but once. */
function turnOf<Asked extends readonly unknown[], Drawn>(
  make: (...asked: Asked) => Drawn,
  keyOf: (...asked: Asked) => string,
  blank: Drawn,
) {
  const wanted = new Map<string, Asked>()
  const kept = new Map<string, readonly [Drawn]>()
  const draw = (...asked: Asked): Drawn => {
    const key = keyOf(...asked)
    const [drawn] = kept.get(key) ?? [make(...asked)]
    kept.set(key, [drawn])
    return drawn
  }
  return {
    ask(...asked: Asked): Drawn {
      wanted.set(keyOf(...asked), asked)
      return blank
    },
    draw,
    async drawAll(): Promise<void> {
      for (const asked of wanted.values()) {
        draw(...asked)
        await setImmediate()
      }
    },
  }
}
