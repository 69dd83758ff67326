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
