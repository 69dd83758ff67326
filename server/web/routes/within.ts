import type { FastifyReply } from 'fastify'

/** How long a page waits for what the worker has to tell; it is there when the page is opened again. */
export const PATIENCE_MS = 400

/** What a promise gives within so many milliseconds; null when it takes longer or fails. */
export async function within<Answer>(patienceMs: number, promise: Promise<Answer>): Promise<Answer | null> {
  let timer: NodeJS.Timeout | undefined
  const impatience = new Promise<null>((resolve) => {
    timer = setTimeout(() => resolve(null), patienceMs)
  })
  try {
    return await Promise.race([promise.catch(() => null), impatience])
  } finally {
    clearTimeout(timer)
  }
}

/** The same for a page that is kept: one that must do without is made anew for whoever asks next. */
export const withinOf =
  (reply: FastifyReply) =>
  async <Answer>(promise: Promise<Answer>): Promise<Answer | null> => {
    const answer = await within(PATIENCE_MS, promise)
    if (answer === null && reply.use === 'kept') reply.use = 'shared'
    return answer
  }
