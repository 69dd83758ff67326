import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { Fault } from '../../server/errors.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { A_COMET_DRAFT } from '../support/own-object-data.ts'

const folder = freshFolder()
let desk: Desk
beforeAll(async () => {
  desk = await openDesk(folder)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

describe('words of the host', () => {
  it(
    'are told before those that ship, part by part, until they are taken back, and outlive a restart',
    async () => {
      const shipped = desk.objects.story('m13', 'en')
      expect(shipped?.see).toEqual(expect.any(String))
      desk.words.put('m13', 'en', { see: 'A ball of sparks.', how: shipped?.how })
      expect(desk.objects.story('m13', 'en')).toEqual({
        ...shipped,
        see: 'A ball of sparks.',
        sources: { ...shipped?.sources, see: 'written by the host' },
      })
      expect(desk.words.of('m13', 'en').own).toEqual({ see: 'A ball of sparks.' })

      await desk.close()
      desk = await openDesk(folder)
      expect(desk.objects.story('m13', 'en')?.see).toBe('A ball of sparks.')
      desk.words.takeBack('m13', 'en')
      expect(desk.objects.story('m13', 'en')).toEqual(shipped)
    },
    SLOW_MS,
  )

  it(
    'of one night are told before those of every night, and those before what ships',
    async () => {
      const { id } = seedEvening(desk, north)
      const shipped = desk.objects.story('m57', 'en')
      const see = (nightId?: string) => desk.objects.story('m57', 'en', nightId)?.see
      desk.words.put('m57', 'en', { see: 'A ring of smoke.' }, id)
      expect([see(), see(id)]).toEqual([shipped?.see, 'A ring of smoke.'])
      expect(desk.words.of('m57', 'en', id)).toMatchObject({ nightId: id, shipped, own: { see: 'A ring of smoke.' } })
      desk.words.put('m57', 'en', { see: 'A ring.', how: 'Wait a little.' })
      expect(desk.objects.story('m57', 'en', id)).toMatchObject({
        see: 'A ring of smoke.',
        how: 'Wait a little.',
        answer: shipped?.answer,
        sources: { see: 'written by the host', how: 'written by the host', answer: shipped?.sources.answer },
      })

      await desk.close()
      desk = await openDesk(folder)
      expect([see(), see(id)]).toEqual(['A ring.', 'A ring of smoke.'])
      desk.words.takeBack('m57', 'en', id)
      expect(see(id)).toBe('A ring.')
      desk.words.takeBack('m57', 'en')
      expect(desk.objects.story('m57', 'en', id)).toEqual(shipped)
      expect(() => desk.words.put('m57', 'en', {}, 'nowhere')).toThrow(Fault)
    },
    SLOW_MS,
  )

  it('make a language of their own, of things that ship and things of the host', () => {
    expect(desk.words.languages()).toEqual(['de', 'en'])
    const { key } = desk.own.add(A_COMET_DRAFT)
    expect(desk.objects.story(key, 'fr')).toBeUndefined()
    desk.words.put(key, 'FR', { see: 'Une comète.' })
    desk.words.put('m13', 'cy', { see: 'Pêl.' })
    expect(desk.objects.story(key, 'fr')).toMatchObject({ key, language: 'fr', see: 'Une comète.', answer: '' })
    expect(desk.words.languages()).toEqual(['cy', 'de', 'en', 'fr'])
    expect([desk.words.languagesOf(key), desk.words.languagesOf('m13')]).toEqual([['fr'], ['cy', 'de', 'en']])
  })

  it('are of something on the list, in a language, and fit a card', () => {
    const fault = (act: () => unknown) => {
      try {
        act()
      } catch (error) {
        if (error instanceof Fault) return [error.key, ...error.problems.map(({ field, key }) => `${field} ${key}`)]
      }
      return []
    }
    expect(fault(() => desk.words.put('nothing', 'en', {}))).toEqual(['fault.no-object'])
    expect(fault(() => desk.words.of('m13', 'qq'))).toEqual(['fault.invalid', 'language problem.language-unknown'])
    const long = Array.from({ length: 71 }, () => 'a').join(' ')
    expect(fault(() => desk.words.put('m13', 'de', { see: long }))).toEqual(['fault.invalid', ' problem.face-long'])
    expect(fault(() => desk.words.put('m13', 'de', 'words'))).toEqual(['fault.invalid', ' problem.type-object'])
    expect(desk.words.of('m13', 'de').own).toEqual({})
  })
})
