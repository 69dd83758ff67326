import { get } from 'node:http'
import { gunzipSync } from 'node:zlib'
import { FONTS } from '../../server/web/fonts.ts'
import { FULL, onEvening } from './evening.ts'
import { served } from './pages.ts'

const ASKED_BYTES = 60_000

interface Weight {
  readonly requests: number
  /** Of all answers with their heads, as they come over the wire. */
  readonly bytes: number
  readonly fontBytes: number
}

/** The page of a station, as the phone of an operator opens it. */
export interface StationPage {
  readonly port: number
  readonly path: string
  /** The session of the phone, as a cookie. */
  readonly cookie: string
}

/** Does something with the page of a station on a full evening, served by a process of its own. */
export const withStation = <Answer>(work: (page: StationPage) => Promise<Answer>): Promise<Answer> =>
  onEvening(FULL, ({ night, code }, folder) => {
    const path = `/field/${night.id}/${night.stations[0]?.id}`
    return served(folder, [path], async ({ port }) => work({ port, path, cookie: await joinedWith(port, code) }))
  })

/** What a phone fetches that opens the page of its station for the first time, as an operator: the page, its styles and script, and the letters of its words. */
const stationWeight = (): Promise<Weight> =>
  withStation(async ({ port, path, cookie }) => {
    const page = await fetched(port, path, cookie)
    const assets = [...page.text.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map(([, address = '']) => address)
    const parts = await Promise.all(assets.map((address) => fetched(port, address)))
    const fonts = await Promise.all(fontsFor(page.text, parts).map((address) => fetched(port, address)))
    const sum = (all: readonly Fetched[]): number => all.reduce((bytes, each) => bytes + each.bytes, 0)
    return {
      requests: 1 + parts.length + fonts.length,
      bytes: page.bytes + sum(parts) + sum(fonts),
      fontBytes: sum(fonts),
    }
  })

interface Fetched {
  readonly bytes: number
  readonly text: string
}

async function joinedWith(port: number, secret: string): Promise<string> {
  const answer = await fetch(`http://127.0.0.1:${port}/api/join`, {
    method: 'POST',
    headers: { origin: `http://127.0.0.1:${port}`, 'content-type': 'application/json' },
    body: JSON.stringify({ secret, name: 'Ada', role: 'operator' }),
  })
  const [cookie] = answer.headers.getSetCookie()
  if (!answer.ok || cookie === undefined) throw new Error(`The phone was not let in: ${answer.status}`)
  return cookie.split(';')[0] ?? ''
}

/** An answer as a browser asks for it, by a line of its own, so that its bytes can be told. */
const fetched = (port: number, path: string, cookie = ''): Promise<Fetched> =>
  new Promise((resolve, reject) => {
    const headers = { 'accept-encoding': 'gzip, deflate', ...(cookie !== '' && { cookie }) }
    get({ port, path, headers, agent: false, host: '127.0.0.1' }, (answer) => {
      const chunks: Buffer[] = []
      answer.on('data', (chunk: Buffer) => chunks.push(chunk))
      answer.on('end', () => {
        const body = Buffer.concat(chunks)
        const isPacked = answer.headers['content-encoding'] === 'gzip'
        if (answer.statusCode !== 200) return reject(new Error(`${path} answered ${answer.statusCode}`))
        resolve({ bytes: answer.socket.bytesRead, text: String(isPacked ? gunzipSync(body) : body) })
      })
    }).on('error', reject)
  })

/** The addresses of the letters that a browser fetches: of every file that has a letter of the page. */
function fontsFor(html: string, styles: readonly Fetched[]): string[] {
  const letters = new Set([...html].map((letter) => letter.codePointAt(0) ?? 0))
  const wanted = FONTS.filter(({ unicodeRange }) => [...letters].some((letter) => isIn(unicodeRange, letter)))
  const all = styles.flatMap(({ text }) => [...text.matchAll(/\/assets\/[\w.-]+\.woff2/g)].map(([address]) => address))
  return all.filter((address) => wanted.some(({ name }) => address.includes(name.replace('.woff2', '.'))))
}

const isIn = (ranges: string, letter: number): boolean =>
  ranges.split(',').some((range) => {
    const [from = Number.NaN, to = from] = range
      .slice(2)
      .split('-')
      .map((hex) => Number.parseInt(hex, 16))
    return letter >= from && letter <= to
  })

export async function benchFieldBytes(): Promise<void> {
  console.log(toldOfWeight(await stationWeight()))
}

const toldOfWeight = ({ requests, bytes, fontBytes }: Weight): string =>
  `the station page of an operator with all it needs: ${requests} answers, ${bytes} bytes with their heads, packed where ` +
  `that helps, ${fontBytes} of them letters (asked: at most ${ASKED_BYTES})`
