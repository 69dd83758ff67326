import type { FastifyReply } from 'fastify'

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
  (reply: FastifyReply, patienceMs: number) =>
  async <Answer>(promise: Promise<Answer>): Promise<Answer | null> => {
    const answer = await within(patienceMs, promise)
    if (answer === null && reply.use === 'kept') reply.use = 'shared'
    return answer
  }
