import { describe, expect, it } from 'vitest'
import type { Stop } from '../../server/tours/tour.ts'
import { eyepiecePages } from '../../server/web/pages/eyepiece.ts'
import type { SizedPicture } from '../../server/web/pages/print-pictures.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const { night, tour, pictures } = A_FULL_PRINT
const [station] = night.stations
const [stop] = tour.stops
if (!station || !stop) throw new Error('The night of the tests has a stop')
const picture = (more: Partial<SizedPicture>): SizedPicture => {
  const plain = pictures.field(stop, 'column')
  if (!plain) throw new Error('The tests have a picture')
  return { ...plain, ...more }
}
const showing = (stops: readonly Stop[], more: Partial<SizedPicture>, paper: 'a4' | 'letter' = 'a4') =>
  eyepiecePages(HOST, {
    ...A_FULL_PRINT,
    look: { paper },
    tour: { ...tour, stops },
    pictures: { ...pictures, field: () => picture(more) },
  })
const later = (minutes: number): Stop => ({ ...stop, startsAt: new Date(stop.startsAt.getTime() + 60_000 * minutes) })

describe('the pages of what will be seen', () => {
  it('show a stop with the way there beside it, and all that is said of both', () => {
    const [page] = showing([stop], { legend: '1: a crater' }).pages
    expect(page?.stops[0]?.pictures.map(({ notes, isWide }) => [notes, isWide])).toEqual([
      [['1: a crater', 'What the picture means.'], false],
      [['What the picture means.'], false],
    ])
    expect(page?.stops[0]?.when).toContain(station.name)
  })

  it('put as many stops on a page as it holds, in the order of the evening', () => {
    const stops = [later(30), stop, later(60)]
    const of = (heightMm: number) => showing(stops, { heightMm }).pages.map((page) => page.stops.length)
    expect([of(50), of(80), of(150), of(400)]).toEqual([
      [2, 1],
      [2, 1],
      [1, 1, 1],
      [1, 1, 1],
    ])
    const times = showing(stops, { heightMm: 150 }).pages.flatMap((page) => page.stops.map(({ when }) => when))
    expect(times).toEqual(times.toSorted())
  })

  it('say all of it in larger letters where a page has room for them, and A4 is the higher page', () => {
    const roomy = (heightMm: number, paper: 'a4' | 'letter') =>
      showing([stop], { heightMm }, paper).pages.map(({ isRoomy }) => isRoomy)
    expect([roomy(100, 'letter'), roomy(176, 'letter'), roomy(176, 'a4'), roomy(200, 'a4')]).toEqual([
      [true],
      [false],
      [true],
      [false],
    ])
  })

  it('leave the way out beside two tubes, which take the whole width', () => {
    const [page] = showing([stop], { widthMm: 170 }).pages
    expect(page?.stops[0]?.pictures.map(({ isWide }) => isWide)).toEqual([true])
  })

  it('are one page with a sentence where nothing is shown or nothing can be drawn', () => {
    for (const subject of [AN_EMPTY_PRINT, { ...A_FULL_PRINT, pictures: AN_EMPTY_PRINT.pictures }])
      expect(eyepiecePages(HOST, subject).pages).toEqual([{ stops: [], isRoomy: false }])
  })
})
