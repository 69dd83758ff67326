import type { MarkDesk } from '../desk/marks.ts'
import { Fault } from '../errors.ts'

interface Waiting {
  readonly run: () => void
  readonly answer: () => void
  readonly fail: (error: unknown) => void
}

/**
 * Has works that come in the same moment kept at once: forty acts then wait for the disk one time and not forty times.
 * Each has its own answer or Fault, but only once all is on the disk; when anything else fails, none is kept.
 */
export function oneCommit({ together }: Pick<MarkDesk, 'together'>) {
  let waiting: Waiting[] = []

  function runAll(): void {
    const all = waiting
    waiting = []
    try {
      together(() => {
        for (const { run } of all) run()
      })
    } catch (error) {
      for (const { fail } of all) fail(error)
      return
    }
    for (const { answer } of all) answer()
  }

  return <Result>(work: () => Result): Promise<Result> =>
    new Promise((resolve, reject) => {
      let answer = (): void => {}
      const run = (): void => {
        try {
          const result = work()
          answer = () => resolve(result)
        } catch (error) {
          if (!(error instanceof Fault)) throw error
          answer = () => reject(error)
        }
      }
      if (waiting.length === 0) setImmediate(runAll)
      waiting.push({ run, answer: () => answer(), fail: reject })
    })
}
