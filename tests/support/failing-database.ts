import { type Database, SqliteError, type Statement } from 'better-sqlite3'

const RUNS = ['run', 'get', 'all', 'iterate']

/** A database of which one step can be told to fail: a statement, or the begin or the end of a transaction. */
export function failingDatabase() {
  let [stepsDone, failsAt, code] = [0, Number.POSITIVE_INFINITY, '']

  function step(): void {
    stepsDone += 1
    if (stepsDone === failsAt) throw new SqliteError('the disk of a test', code)
  }

  function statement(real: Statement): Statement {
    return new Proxy(real, {
      get(target, name) {
        const value: unknown = Reflect.get(target, name, target)
        if (typeof value !== 'function') return value
        return (...given: unknown[]) => {
          if (RUNS.includes(String(name))) step()
          const answer: unknown = value.apply(target, given)
          return answer === target ? statement(target) : answer
        }
      },
    })
  }

  function transaction(db: Database, work: (...given: unknown[]) => unknown) {
    const around = (begin: string) =>
      function once(...given: unknown[]): unknown {
        if (db.inTransaction) return work(...given)
        step()
        db.exec(begin)
        try {
          const answer = work(...given)
          step()
          db.exec('COMMIT')
          return answer
        } catch (error) {
          if (db.inTransaction) db.exec('ROLLBACK')
          throw error
        }
      }
    return Object.assign(around('BEGIN'), { immediate: around('BEGIN IMMEDIATE') })
  }

  return {
    through: (db: Database): Database =>
      new Proxy(db, {
        get(target, name) {
          if (name === 'prepare') return (sql: string) => statement(target.prepare(sql))
          if (name === 'transaction') return (work: () => unknown) => transaction(target, work)
          const value: unknown = Reflect.get(target, name, target)
          return typeof value === 'function' ? value.bind(target) : value
        },
      }),
    /** Lets the n-th step from now fail with a code of SQLite's. */
    failAt(step: number, withCode: string): void {
      ;[stepsDone, failsAt, code] = [0, step, withCode]
    },
    /** Lets nothing fail any more; answers whether anything did. */
    heal(): boolean {
      const hasFailed = stepsDone >= failsAt
      failsAt = Number.POSITIVE_INFINITY
      return hasFailed
    },
  }
}
