import { afterAll, beforeAll, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { south } from '../../seed-demo/south.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { BACKS, CARD_SIZES } from '../../server/web/pages/card-fit.ts'
import { cardKeys, cards } from '../../server/web/pages/cards.ts'
import { printed } from '../../server/web/routes/print-subject.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { HOST } from '../support/page-data.ts'

const folder = freshFolder()
let desk: Desk
let nights: readonly string[] = []
beforeAll(async () => {
  desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
  nights = [north, south].map((evening) => seedEvening(desk, evening).id)
  for (const id of nights) await desk.tours.build(id, { steps: 20_000 })
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

it.each(CARD_SIZES)('every target of both demo nights has one front and one back of size %s', async (size) => {
  for (const id of nights) {
    const { keys, sides } = await printed(
      desk,
      { viewer: HOST, id, query: {}, cards: { size, hasBacks: true } },
      (subject) => ({
        keys: cardKeys(subject.night, subject.tour),
        sides: cards(HOST, subject).pages.flatMap((page) => page.sides),
      }),
    )
    expect(keys.length).toBeGreaterThan(10)
    const backs = sides.flatMap(({ back }) => back ?? [])
    expect(sides.filter(({ face }) => face !== null)).toHaveLength(keys.length)
    expect(backs).toHaveLength(keys.length)
    const { finderMm } = BACKS[size]
    expect(backs.filter(({ pictures }) => pictures.length === 0)).toEqual([])
    const withWay = backs.filter(({ pictures }) => pictures.length === 2).length
    if (finderMm === null) expect(withWay).toBe(0)
    else expect(withWay).toBeGreaterThanOrEqual(keys.length - 4)
  }
})
