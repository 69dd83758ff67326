import type { Answered } from './job-kinds.ts'

/** A job at work: each `next` is one slice, so that a more urgent job can come between two slices of another. */
interface Running {
  readonly id: number
  readonly priority: number
  readonly slices: Generator<undefined, unknown>
}

/** Works on jobs slice by slice, the most urgent first (lowest priority number), then the oldest; answers each when done. */
export function sliceQueue(answer: (answered: Answered) => void) {
  const running: Running[] = []

  function turn(): void {
    const first = running.toSorted((a, b) => a.priority - b.priority || a.id - b.id)[0]
    if (!first) return
    const answered = nextOf(first)
    if (answered) {
      running.splice(running.indexOf(first), 1)
      answer(answered)
    }
    if (running.length > 0) setImmediate(turn)
  }

  return {
    add(id: number, priority: number, slices: Generator<undefined, unknown>): void {
      running.push({ id, priority, slices })
      if (running.length === 1) setImmediate(turn)
    },
  }
}

/** The answer of a job whose last slice this was, or undefined. */
function nextOf({ id, slices }: Running): Answered | undefined {
  try {
    const { done, value } = slices.next()
    return done ? { id, value } : undefined
  } catch (error) {
    return { id, error: error instanceof Error ? error : new Error(String(error)) }
  }
}
