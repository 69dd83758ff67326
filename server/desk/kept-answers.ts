import { shelf } from './shelf.ts'

/** Remembers what was asked of the worker: asked again by the same name, the same answer; the `most` last used are kept, and none that failed. */
export function keptAnswers<Answer>(most: number) {
  const answers = shelf<Promise<Answer>>(most)
  return (name: string, ask: () => Promise<Answer>): Promise<Answer> =>
    answers.take(name, () => {
      const answer = ask()
      answer.catch(() => answers.drop(name))
      return answer
    })
}
