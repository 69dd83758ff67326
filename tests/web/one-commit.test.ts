import { beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { Fault } from '../../server/errors.ts'
import { oneCommit } from '../../server/web/one-commit.ts'

/** A table of words whose transactions are counted. */
function words() {
  const db = openDatabase(':memory:')
  migrate(db)
  db.exec('CREATE TABLE word (text TEXT UNIQUE)')
  let commits = 0
  return {
    db,
    inOneCommit: oneCommit({
      together(work) {
        commits += 1
        return db.transaction(work).immediate()
      },
    }),
    /** Keeps a word in a transaction of its own, as a mark is kept. */
    keep: (text: string) =>
      db.transaction(() => {
        db.prepare('INSERT INTO word VALUES (?)').run(text)
        if (text === 'rude') throw new Fault('invalid', 'fault.invalid')
        return text
      })(),
    kept: () => db.prepare('SELECT text FROM word ORDER BY text').pluck().all(),
    commits: () => commits,
  }
}

let table: ReturnType<typeof words>
beforeEach(() => {
  table = words()
})
const keepAll = (...texts: string[]) =>
  Promise.allSettled(texts.map((text) => table.inOneCommit(() => table.keep(text))))
const statuses = (results: readonly PromiseSettledResult<unknown>[]) => results.map(({ status }) => status)

describe('works that come in the same moment', () => {
  it('are kept in one go, each with its own answer', async () => {
    const answers = await keepAll('oak', 'ash', 'elm')
    expect(answers.map((answer) => answer.status === 'fulfilled' && answer.value)).toEqual(['oak', 'ash', 'elm'])
    expect([table.kept(), table.commits()]).toEqual([['ash', 'elm', 'oak'], 1])
  })

  it('answer nothing before they are kept', async () => {
    const kept = table.inOneCommit(() => table.keep('oak')).then(() => [table.kept(), table.db.inTransaction])
    expect(table.kept()).toEqual([])
    expect(await kept).toEqual([['oak'], false])
  })

  it('do not suffer from one that is refused', async () => {
    const answers = await keepAll('oak', 'rude', 'elm')
    expect(statuses(answers)).toEqual(['fulfilled', 'rejected', 'fulfilled'])
    expect(table.kept()).toEqual(['elm', 'oak'])
  })

  it('are none of them kept, and all told so, when the disk fails one', async () => {
    const failing = [
      table.inOneCommit(() => table.keep('oak')),
      table.inOneCommit(() => table.db.exec('no such thing')),
    ]
    expect(statuses(await Promise.allSettled(failing))).toEqual(['rejected', 'rejected'])
    expect(table.kept()).toEqual([])
  })

  it('are all told when they cannot be kept at the end', async () => {
    const failing = oneCommit({
      together(work) {
        work()
        throw new Error('disk full')
      },
    })
    const answers = await Promise.allSettled([failing(() => 1), failing(() => 2)])
    expect(statuses(answers)).toEqual(['rejected', 'rejected'])
  })

  it('leave those that come later for the next go', async () => {
    await keepAll('oak')
    await keepAll('elm')
    expect([table.kept(), table.commits()]).toEqual([['elm', 'oak'], 2])
  })
})
