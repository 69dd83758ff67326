import { connect } from 'node:net'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ACTS, type Act, toldSoFar } from '../support/acts.ts'
import { recordRow } from '../support/fault-rows.ts'
import { HOST, HOST_COOKIE, LAN_HOST, type TestApp, testApp } from '../support/web.ts'

const HOSTS = [HOST, LAN_HOST, 'rebound.example:8080', 'localhost.rebound.example:8080', 'localhost:8080.', '']
const ORIGINS = [
  'same',
  undefined,
  'null',
  'http://evil.example',
  `http://${LAN_HOST}`,
  `https://${HOST}`,
  `http://${HOST}.evil.example`,
  `http://${HOST}/`,
] as const
const TYPES = [
  'application/json',
  'application/x-www-form-urlencoded',
  'text/plain',
  'multipart/form-data; boundary=x',
  undefined,
] as const
const COOKIES = [HOST_COOKIE, 'duskrow-session=made-up', undefined] as const

interface Cell {
  readonly act: Act
  readonly host: string
  readonly origin: (typeof ORIGINS)[number]
  readonly type: (typeof TYPES)[number]
  readonly cookie: (typeof COOKIES)[number]
}
const CELLS: readonly Cell[] = ACTS.flatMap((act) =>
  HOSTS.flatMap((host) =>
    ORIGINS.flatMap((origin) =>
      TYPES.flatMap((type) => COOKIES.map((cookie) => ({ act, host, origin, type, cookie }))),
    ),
  ),
)

let service: TestApp
let port = 0
beforeAll(async () => {
  service = await testApp({ allowedHosts: () => new Set([HOST, LAN_HOST, `127.0.0.1:${port}`]) })
  await service.app.listen({ port: 0, host: '127.0.0.1' })
  const address = service.app.server.address()
  port = typeof address === 'object' && address !== null ? address.port : 0
})
afterAll(() => service.app.close())

/** The one kind of request by which the host's own page acts. */
const isOurs = ({ act, host, origin, type, cookie }: Cell): boolean =>
  host === HOST && origin === 'same' && type === act.type && cookie === HOST_COOKIE

let keys = 0
async function send({ act, host, origin, type, cookie }: Cell): Promise<number> {
  const said = origin === 'same' ? `http://${host}` : origin
  const { statusCode } = await service.app.inject({
    method: 'POST',
    url: act.url,
    remoteAddress: '127.0.0.1',
    headers: {
      host,
      ...(said !== undefined && { origin: said }),
      ...(type !== undefined && { 'content-type': type }),
      ...(cookie !== undefined && { cookie }),
    },
    payload: act.body(`act-of-a-cell-${++keys}`),
  })
  return statusCode
}

/** A redirect says nothing here: it may lead to the page of what was done as well as to the one to sign in. */
const saysDone = (status: number): boolean => status < 300

describe('an act in the host’s name', () => {
  it(`is taken from the host's own page alone, of ${CELLS.length} kinds of request, and changes nothing else`, async () => {
    const wrong: string[] = []
    for (const cell of CELLS) {
      const before = toldSoFar(service.kept)
      const status = await send(cell)
      const isChanged = toldSoFar(service.kept) !== before
      const isWrong = isChanged !== isOurs(cell) || (saysDone(status) && !isChanged) || status >= 500
      if (isWrong) wrong.push(`${status}, ${isChanged ? 'changed' : 'the same'}: ${JSON.stringify(cell)}`)
    }
    recordRow({
      row: 14,
      part: 'kinds of request',
      reached: `${CELLS.length} cells, ${wrong.length} let in or changed wrongly`,
      isReached: CELLS.length >= 400 && wrong.length === 0,
      seed: null,
      count: CELLS.length,
    })
    expect(wrong).toEqual([])
    expect(CELLS.filter(isOurs)).toHaveLength(ACTS.length)
  })
})

/** Sends an act as bytes over a real line and answers the status. */
function say(act: Act, target: string, lines: readonly string[], version = '1.1'): Promise<number> {
  const body = act.body(`act-of-a-line-${++keys}`)
  const head = [
    `POST ${target} HTTP/${version}`,
    ...lines,
    `Origin: http://127.0.0.1:${port}`,
    `Cookie: ${HOST_COOKIE}`,
    `Content-Type: ${act.type}`,
    `Content-Length: ${Buffer.byteLength(body)}`,
    'Connection: close',
  ]
  return new Promise((resolve) => {
    const socket = connect({ port, host: '127.0.0.1' }, () => socket.write(`${head.join('\r\n')}\r\n\r\n${body}`))
    let heard = ''
    socket.on('data', (data) => {
      heard += data
    })
    socket.on('close', () => resolve(Number(/^HTTP\/1\.1 (\d{3})/.exec(heard)?.[1] ?? 0)))
    socket.on('error', () => {})
  })
}

/** What can only be said over a real line, with everything else as our own page says it. */
const LINES: readonly [
  what: string,
  target: (url: string) => string,
  lines: () => readonly string[],
  takes: boolean,
][] = [
  ['our Host', (url) => url, () => [`Host: 127.0.0.1:${port}`], true],
  ['our whole address', (url) => `http://127.0.0.1:${port}${url}`, () => [`Host: 127.0.0.1:${port}`], true],
  ['no Host', (url) => url, () => [], false],
  ['a blank Host', (url) => url, () => ['Host:'], false],
  ['two Hosts, ours first', (url) => url, () => [`Host: 127.0.0.1:${port}`, 'Host: rebound.example'], false],
  ['two Hosts, ours last', (url) => url, () => ['Host: rebound.example', `Host: 127.0.0.1:${port}`], false],
  ['our Host twice', (url) => url, () => [`Host: 127.0.0.1:${port}`, `Host: 127.0.0.1:${port}`], false],
  ['a name that was turned to us', (url) => url, () => [`Host: rebound.example:${port}`], false],
  ['our Host without its port', (url) => url, () => ['Host: 127.0.0.1'], false],
  ['our Host behind somebody', (url) => url, () => [`Host: me@127.0.0.1:${port}`], false],
  ['a whole foreign address', (url) => `http://rebound.example${url}`, () => [`Host: 127.0.0.1:${port}`], false],
  ['our whole address, a foreign Host', (url) => `http://127.0.0.1:${port}${url}`, () => ['Host: evil.example'], false],
]

describe('an act over a real line', () => {
  it.each(LINES)('with %s', async (_what, target, lines, takes) => {
    for (const act of ACTS) {
      const before = toldSoFar(service.kept)
      const status = await say(act, target(act.url), lines())
      expect(toldSoFar(service.kept) !== before).toBe(takes)
      expect([200, 201, 303].includes(status)).toBe(takes)
    }
  })
})
