import { expect, it } from 'vitest'
import { openDatabase } from '../../db/open.ts'
import { readOnce } from '../../db/read-once.ts'

it('reads once until something is written, and keeps nothing that may still be undone', () => {
  const db = openDatabase(':memory:')
  db.exec('CREATE TABLE thing (id TEXT PRIMARY KEY, name TEXT)')
  const name = db.prepare<[string], string>('SELECT name FROM thing WHERE id = ?').pluck()
  const put = db.prepare<[string, string]>('INSERT OR REPLACE INTO thing VALUES (?, ?)')
  let reads = 0
  const find = readOnce(db)((id: string) => {
    reads++
    return name.get(id)
  })
  put.run('a', 'one')
  put.run('b', 'two')
  expect([find('a'), find('b'), find('a'), find('b'), reads]).toEqual(['one', 'two', 'one', 'two', 2])
  put.run('a', 'other')
  expect([find('a'), find('b'), reads]).toEqual(['other', 'two', 4])
  const undone = db.transaction(() => {
    put.run('a', 'undone')
    expect(find('a')).toBe('undone')
    throw new Error('undone')
  })
  expect(undone).toThrow('undone')
  expect(find('a')).toBe('other')
  db.close()
})
