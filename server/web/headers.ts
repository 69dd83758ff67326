import { STATUS_CODES } from 'node:http'
import type { Socket } from 'node:net'
import type { FastifyInstance } from 'fastify'

/**
 * Sent with every answer. Plain http in a field: so no strict transport, no upgrade of requests, no header that opens
 * a door to another origin. The referrer stays `same-origin`, since without it browsers post forms with `Origin: null`.
 */
export const SAFE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self' data:",
    "connect-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "object-src 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'same-origin',
}

/** Puts the safe headers on every answer; the raw listener reaches those that never come to a hook, such as a 503 while closing. */
export function sendSafeHeaders(app: FastifyInstance): void {
  app.server.prependListener('request', (_request, response) => {
    for (const [name, value] of Object.entries(SAFE_HEADERS)) response.setHeader(name, value)
  })
  app.addHook('onRequest', async (_request, reply) => {
    reply.headers(SAFE_HEADERS)
    reply.header('cache-control', 'no-store')
  })
}

const BROKEN_STATUS: Readonly<Record<string, number>> = { HPE_HEADER_OVERFLOW: 431, ERR_HTTP_REQUEST_TIMEOUT: 408 }

/** For the answer to be read. */
const LAST_WORD_MS = 250

/** Answers what is not even HTTP, or came too slowly, and hangs up. */
export function answerBrokenRequest(error: NodeJS.ErrnoException, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) return void socket.destroy()
  const status = BROKEN_STATUS[error.code ?? ''] ?? 400
  const body = JSON.stringify({ error: { code: 'fault.malformed', message: STATUS_CODES[status], problems: [] } })
  const headers = {
    ...SAFE_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'content-length': Buffer.byteLength(body),
    connection: 'close',
  }
  const lines = Object.entries(headers).map(([name, value]) => `${name}: ${value}\r\n`)
  socket.end(`HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${lines.join('')}\r\n${body}`)
  // A sender that does not hang up in its turn would keep the line.
  setTimeout(() => socket.destroy(), LAST_WORD_MS).unref()
}
