import { describe, expect, it } from 'vitest'
import { OBJECT_KINDS, type ShowObject } from '../../server/tours/target.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { ticket } from '../../server/web/pages/ticket.ts'
import { AN_OBJECT } from '../support/field-data.ts'
import { ENGLISH, HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const [stop] = A_FULL_PRINT.tour.stops
if (!stop) throw new Error('The night of the tests has a stop')
const showing = (objects: readonly ShowObject[]) => {
  const stops: Stop[] = objects.map(({ key }) => ({ ...stop, targetKey: key }))
  const show = (key: string) => objects.find((object) => object.key === key)
  const names = { ...A_FULL_PRINT.names, show, nameOf: (key: string) => show(key)?.name ?? key }
  return ticket(HOST, { ...A_FULL_PRINT, beside: [], tour: { ...A_FULL_PRINT.tour, stops }, names })
}
const thing = (key: string, kind: ShowObject['kind'], name = key): ShowObject => ({ ...AN_OBJECT, key, kind, name })
const DOUBLES = Array.from({ length: 8 }, (_, k) => thing(`double-${k}`, 'double'))

describe("a child's ticket", () => {
  it('has ten things, each once, and ends with thanks and a question', () => {
    for (const subject of [A_FULL_PRINT, AN_EMPTY_PRINT]) {
      const texts = ticket(HOST, subject).things.map(({ text }) => text)
      expect(texts).toHaveLength(10)
      expect(new Set(texts).size).toBe(10)
      expect(texts.slice(-2)).toEqual(['Say thank you to an operator', 'Ask one question of your own'])
    }
  })

  it("says in a child's words what a thing is, and at which telescope", () => {
    const { things } = showing([thing('albireo', 'double', 'Albireo')])
    expect(things[0]).toEqual({ text: 'A star that is two stars: Albireo', where: 'at By the oak' })
  })

  it('calls planets by their own names', () => {
    const { things } = showing([{ ...thing('saturn', 'planet', 'Saturn'), body: 'saturn' }])
    expect(things[0]?.text).toBe('Saturn with its ring')
  })

  it('takes one of every kind before a second of any, and six of them at most', () => {
    const texts = showing([...DOUBLES, thing('m31', 'galaxy')]).things.map(({ text }) => text)
    expect(texts).toContain('Another galaxy: m31')
    expect(texts.filter((text) => text.startsWith('A star that is two stars'))).toHaveLength(5)
  })

  it('leaves out a name that would spill over its place', () => {
    const name = 'The great and very old cluster of stars that has sixty letter'
    expect(showing([thing('long', 'open-cluster', name)]).things[0]?.text).toBe('A swarm of stars')
    expect(showing([thing('short', 'open-cluster', 'Pleiades')]).things[0]?.text).toBe('A swarm of stars: Pleiades')
  })

  it('asks for no star where no night comes, and not for the Moon twice', () => {
    const bright = { ...A_FULL_PRINT, evening: { ...A_FULL_PRINT.evening, nauticalDuskAt: null } }
    expect(ticket(HOST, bright).things.map(({ text }) => text)).not.toContain('A star that is not white')
    const { things } = showing([thing('moon', 'moon', 'Moon')])
    expect(things.map(({ text }) => text)).not.toContain('Find the Moon')
  })

  it('has words for every kind of thing', () => {
    for (const kind of OBJECT_KINDS) expect(ENGLISH.knows(`ticket.kind-${kind}`), kind).toBe(true)
  })
})
