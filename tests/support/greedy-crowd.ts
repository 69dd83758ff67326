// A program of its own, so that its work takes nothing from the phones whose waiting is measured.
import { connect, type Socket } from 'node:net'
import type { Greed, GreedSeen } from './greed.ts'

const DRIP_MS = 1_000
const PROBE_MS = 100
const HELD_PER_ADDRESS = 10
const STREAMS_PER_ADDRESS = 2
/** As many as the service lets one address have. */
const FLOOD_LINES = 20
const FLOOD_AT_ONCE = 200
const SIP_MS = 5_000
/** From here on no honest phone has its address. */
const FIRST_NET = 100

const { port, nightId, slow, readers, floods }: Greed = JSON.parse(process.argv[2] ?? '')
const seen: GreedSeen = { slowMs: [], stillOpenMs: [], flooded: {}, readersCut: 0 }
const host = `Host: 127.0.0.1:${port}\r\n`
const post = (path: string) => `POST ${path} HTTP/1.1\r\n${host}Origin: http://127.0.0.1:${port}\r\n`
const json = 'Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n'

/** How a request begins that never ends: all but nothing, half a head, half a body that is waited for, one that is not. */
const BEGINNINGS = [
  '',
  `GET /tonight/${nightId} HTTP/1.1\r\n${host}X-Slow: `,
  `${post('/api/join')}${json}`,
  `${post(`/api/nights/${nightId}/marks`)}${json}`,
] as const

const dripping = new Set<Socket>()
const ended = new Set<Socket>()
const openedMs = new Map<Socket, number>()

const address = (net: number, i: number): string => `127.0.${net + Math.floor(i / 250)}.${1 + (i % 250)}`
const open = (localAddress: string, allowHalfOpen = false): Socket =>
  connect({ port, host: '127.0.0.1', localAddress, allowHalfOpen }).on('error', () => {})

/** Sends a byte a second until it is hung up on, then begins anew. Some do not hang up in their turn and go on. */
function slowly(i: number): void {
  const beginning = BEGINNINGS[i % BEGINNINGS.length] ?? ''
  const hangsUp = i % (2 * BEGINNINGS.length) < BEGINNINGS.length
  const socket = open(address(FIRST_NET, Math.floor(i / HELD_PER_ADDRESS)), !hangsUp)
  socket.once('connect', () => {
    openedMs.set(socket, performance.now())
    if (beginning === '') return
    socket.write(beginning)
    dripping.add(socket)
  })
  // Whether a line that was told to end is gone is known by what it does with the next byte.
  socket.resume().once('end', () => ended.add(socket))
  socket.once('close', () => {
    seen.slowMs.push(performance.now() - (openedMs.get(socket) ?? Number.NaN))
    openedMs.delete(socket)
    dripping.delete(socket)
    ended.delete(socket)
    setTimeout(slowly, DRIP_MS, i)
  })
}

/** Asks for the stream of a page and reads nothing of it, or a sip now and then. */
function readSlowly(i: number): void {
  const socket = open(address(FIRST_NET + 20, Math.floor(i / STREAMS_PER_ADDRESS)))
  socket.write(`GET /api/nights/${nightId}/live HTTP/1.1\r\n${host}\r\n`)
  socket.pause()
  const sips = i % 2 === 0 ? setInterval(() => socket.once('data', () => socket.pause()).resume(), SIP_MS) : undefined
  socket.once('close', () => {
    clearInterval(sips)
    seen.readersCut++
  })
}

/** Asks for what costs most, and comes back whenever it is hung up on: each time it has an answer, or without waiting for any. */
function flood(localAddress: string, waits: boolean): void {
  const request = `GET /api/nights/${nightId}/marks HTTP/1.1\r\n${host}\r\n`
  const batch = waits ? request : Buffer.from(request.repeat(FLOOD_AT_ONCE))
  const socket = open(localAddress)
  const pour = (): void => {
    while (socket.writable && socket.write(batch) && !waits);
  }
  socket.setEncoding('latin1').on('data', (text) => {
    for (const [, status = ''] of String(text).matchAll(/HTTP\/1\.1 (\d{3}) /g)) {
      seen.flooded[status] = (seen.flooded[status] ?? 0) + 1
      if (waits) pour()
    }
  })
  socket.once('connect', pour)
  if (!waits) socket.on('drain', pour)
  socket.once('close', () => {
    seen.flooded.cut = (seen.flooded.cut ?? 0) + 1
    setTimeout(flood, 1, localAddress, waits)
  })
}

for (let i = 0; i < slow; i++) slowly(i)
for (let i = 0; i < readers; i++) readSlowly(i)
for (let f = 0; f < floods; f++) {
  for (let i = 0; i < FLOOD_LINES; i++) flood(address(FIRST_NET + 40, f), f % 2 === 1)
}
setInterval(() => {
  for (const socket of dripping) socket.write('a')
}, DRIP_MS)
setInterval(() => {
  for (const socket of ended) socket.write('a')
}, PROBE_MS)

process.on('message', () => {
  const stillOpenMs = [...openedMs.values()].map((since) => performance.now() - since)
  process.send?.({ ...seen, stillOpenMs }, () => process.exit(0))
})
process.on('disconnect', () => process.exit(1))
process.send?.('loose')
