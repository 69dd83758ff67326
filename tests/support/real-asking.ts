import { request } from 'node:http'
import type { InjectOptions } from 'fastify'
import type { Asked } from './played-stage.ts'

/**
 * Asks a running service over real connections what tests otherwise ask within one process: the host from the laptop
 * itself, each phone from an address of its own and under the name that phones use.
 */
export function realAsking(url: string, nameForPhones: string): (options: InjectOptions) => Promise<Asked> {
  const { port } = new URL(url)
  const addresses = new Map<string, string>()
  const addressOf = (cookie: string): string => {
    const address = addresses.get(cookie) ?? `127.0.1.${addresses.size + 1}`
    addresses.set(cookie, address)
    return address
  }

  return ({ method = 'GET', url: path, headers: given, payload, remoteAddress }) => {
    const isHost = remoteAddress === '127.0.0.1'
    const host = `${isHost ? '127.0.0.1' : nameForPhones}:${port}`
    const cookie = String(given?.cookie ?? '')
    const type = typeof payload === 'object' ? { 'content-type': 'application/json' } : {}
    const headers = { ...type, ...given, host, origin: `http://${host}`, cookie }
    const localAddress = isHost ? '127.0.0.1' : addressOf(cookie)
    return new Promise((resolve, reject) => {
      const asked = request(
        { host: '127.0.0.1', port, path: String(path), method, headers, localAddress },
        (answer) => {
          let body = ''
          answer.setEncoding('utf8')
          answer.on('data', (part) => {
            body += part
          })
          answer.once('error', reject)
          answer.once('end', () =>
            resolve({
              statusCode: answer.statusCode ?? 0,
              headers: answer.headers,
              body,
              json: () => JSON.parse(body),
            }),
          )
        },
      )
      asked.once('error', reject)
      asked.end(typeof payload === 'object' ? JSON.stringify(payload) : payload)
    })
  }
}
