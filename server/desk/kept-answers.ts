/** Remembers what was asked of the worker: asked again by the same name, the same answer; the `most` newest are kept, and none that failed. */
export function keptAnswers<Answer>(most: number) {
  const answers = new Map<string, Promise<Answer>>()
  return (name: string, ask: () => Promise<Answer>): Promise<Answer> => {
    const kept = answers.get(name)
    if (kept) return kept
    const answer = ask()
    answers.set(name, answer)
    answer.catch(() => answers.delete(name))
    for (const oldest of answers.keys()) if (answers.size > most) answers.delete(oldest)
    return answer
  }
}
