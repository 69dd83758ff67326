import { once } from 'node:events'
import { connect, type Socket } from 'node:net'
import { setTimeout as wait } from 'node:timers/promises'

/** What is asked for, over and over: a path, or the path of each time. */
interface Asked {
  readonly port: number
  readonly path: () => string
}

const LINES = 40

/** How many answers a second come over forty lines, each of which asks again once it has its answer. */
export async function rateOf(asked: Asked, warmMs: number, ms: number): Promise<number> {
  const lines = await Promise.all(Array.from({ length: LINES }, () => lineTo(asked)))
  await wait(warmMs)
  const [before, beganMs] = [countOf(lines), performance.now()]
  await wait(ms)
  const [after, tookMs] = [countOf(lines), performance.now() - beganMs]
  for (const line of lines) line.socket.destroy()
  const wrong = lines.find((line) => line.wrong !== null)
  if (wrong) throw new Error(`An answer was not whole: ${wrong.wrong}`)
  return ((after - before) * 1000) / tookMs
}

interface Line {
  readonly socket: Socket
  count: number
  wrong: string | null
}

const countOf = (lines: readonly Line[]): number => lines.reduce((sum, { count }) => sum + count, 0)

async function lineTo({ port, path }: Asked): Promise<Line> {
  const socket = connect({ port, host: '127.0.0.1' }).setNoDelay()
  await once(socket, 'connect')
  const line: Line = { socket, count: 0, wrong: null }
  const ask = (): void => void socket.write(`GET ${path()} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`)
  let missing = 0
  socket.on('data', (chunk: Buffer) => {
    if (missing === 0) missing = wholeLength(chunk, line)
    missing -= chunk.length
    if (missing > 0) return
    missing = 0
    line.count++
    ask()
  })
  ask()
  return line
}

/** The length of an answer with its head, from the head, which comes in one piece. */
function wholeLength(chunk: Buffer, line: Line): number {
  const end = chunk.indexOf('\r\n\r\n')
  const head = chunk.toString('latin1', 0, end)
  const [, length] = /\r\ncontent-length: (\d+)/i.exec(head) ?? []
  if (end < 0 || length === undefined || !head.startsWith('HTTP/1.1 200 ')) line.wrong = head
  return end + 4 + Number(length)
}
