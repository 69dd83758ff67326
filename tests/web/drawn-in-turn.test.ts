import { describe, expect, it } from 'vitest'
import { svgElement } from '../../server/drawings/svg.ts'
import type { PrintPictures } from '../../server/web/pages/print-pictures.ts'
import { drawnInTurn } from '../../server/web/routes/drawn-in-turn.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'

const A_WALK = { svg: svgElement('svg', {}), notes: ['A walk.'] }
const EIGHT = new Date('2026-11-20T19:00:00Z')

/** Pictures that note what is drawn; of some targets there is none. */
function noted(without: readonly string[] = []) {
  const drawn: string[] = []
  const pictures: PrintPictures = {
    ...A_FULL_PRINT.pictures,
    walk: (key) => {
      drawn.push(key)
      return without.includes(key) ? null : A_WALK
    },
    sky: (at) => {
      drawn.push(at.toISOString())
      return A_WALK
    },
  }
  return { pictures, drawn }
}

describe('pictures drawn in turn', () => {
  it('are drawn once each, however often they are asked for', async () => {
    const { pictures, drawn } = noted()
    const made = await drawnInTurn(pictures, ({ walk, sky }) => [walk('m13'), walk('m13'), walk('m57'), sky(EIGHT)])
    expect(made).toEqual([A_WALK, A_WALK, A_WALK, A_WALK])
    expect(drawn).toEqual(['m13', 'm57', EIGHT.toISOString()])
  })

  it('are not drawn again where there was nothing to draw', async () => {
    const { pictures, drawn } = noted(['m13'])
    expect(await drawnInTurn(pictures, ({ walk }) => [walk('m13'), walk('m13')])).toEqual([null, null])
    expect(drawn).toEqual(['m13'])
  })

  it('are blank while it is heard which are wanted', async () => {
    const { pictures, drawn } = noted()
    const heard: unknown[] = []
    await drawnInTurn(pictures, ({ walk, sky, score }) => {
      heard.push([walk('m13'), sky(EIGHT).notes, score(), drawn.length])
    })
    expect(heard[0]).toEqual([null, [], [], 0])
    expect(heard[1]).toEqual([A_WALK, A_WALK.notes, A_FULL_PRINT.pictures.score(), 2])
  })

  it('are drawn also when they are asked for at the second build alone', async () => {
    const { pictures, drawn } = noted()
    let builds = 0
    const made = await drawnInTurn(pictures, ({ walk }) => {
      builds += 1
      return builds === 1 ? null : walk('m13')
    })
    expect([made, drawn]).toEqual([A_WALK, ['m13']])
  })
})
