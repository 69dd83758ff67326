const MOST = 32

/** Answers with what was made for the same question within so many milliseconds, made anew after them or after a failure. */
export function keptFor<Answer>(ms: number): (question: string, make: () => Promise<Answer>) => Promise<Answer> {
  const kept = new Map<string, { readonly madeAtMs: number; readonly answer: Promise<Answer> }>()
  return (question, make) => {
    const nowMs = performance.now()
    for (const [old, { madeAtMs }] of kept) if (nowMs - madeAtMs > ms) kept.delete(old)
    const found = kept.get(question)
    if (found) return found.answer
    const answer = make()
    answer.catch(() => kept.delete(question))
    if (kept.size < MOST) kept.set(question, { madeAtMs: nowMs, answer })
    return answer
  }
}
