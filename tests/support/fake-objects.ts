import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { ownObjectStore } from '../../db/own-objects.ts'
import { ownWordStore } from '../../db/own-words.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { ownDesk } from '../../server/desk/own-objects.ts'
import { storyTeller, wordDesk } from '../../server/desk/own-words.ts'
import { notFound } from '../../server/errors.ts'
import { A_NIGHT, AN_OBJECT } from './field-data.ts'

/** One object of the list under two names, without a story; what a test enters or writes is kept by the real desk, in memory. */
export function fakeObjects(now: Date): Pick<Desk, 'objects' | 'own' | 'words'> {
  const aliases: Readonly<Record<string, string>> = { m13: 'm13', ngc6205: 'm13' }
  const db = openDatabase(':memory:')
  migrate(db)
  db.pragma('foreign_keys = OFF') // the nights are those of the fake desk
  const ownObjects = ownObjectStore(db)
  const stores = {
    objects: { story: () => undefined, storyLanguages: () => ['en'] },
    ownObjects,
    ownWords: ownWordStore(db),
  }
  const show: Desk['objects']['show'] = (key) => (key === 'm13' ? AN_OBJECT : ownObjects.find(key)?.object)
  const clock = { now: () => now, isRehearsal: true, speed: 1 }
  const aliasOf = (key: string) => (Object.hasOwn(aliases, key) ? aliases[key] : undefined)
  const keyOf = (name: string) => aliasOf(name) ?? ownObjects.called(name)?.key
  const nightOf = (id: string) => {
    if (id !== A_NIGHT.id) throw notFound('night')
    return A_NIGHT
  }
  return {
    objects: {
      search: () => [],
      near: () => [],
      find(key) {
        const canonicalKey = aliasOf(key) ?? key
        const object = show(canonicalKey)
        if (!object) throw notFound('object')
        return { canonicalKey, object }
      },
      show,
      story: storyTeller(stores),
      worldEvents: () => [],
      namesIn: () => new Map(),
    },
    own: ownDesk({ ownObjects, clock, keyOf }),
    words: wordDesk({ ...stores, show, findNight: nightOf }),
  }
}
