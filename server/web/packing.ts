import { gzipSync } from 'node:zlib'
import type { FastifyReply, FastifyRequest } from 'fastify'

/** A body as it is, and in fewer bytes; null where it is packed already. Over plain http no browser offers anything smaller than gzip. */
export interface Packable<Body extends Buffer | string> {
  readonly body: Body
  readonly packed: Buffer | null
}

export const packable = <Body extends Buffer | string>(body: Body): Packable<Body> => ({ body, packed: gzipSync(body) })

/** What to answer with, packed for whoever unpacks it; the headers say which. */
export function bytesFor<Body extends Buffer | string>(
  { headers }: FastifyRequest,
  reply: FastifyReply,
  { body, packed }: Packable<Body>,
): Body | Buffer {
  if (packed === null) return body
  reply.header('vary', 'accept-encoding')
  if (!takesGzip(headers['accept-encoding'])) return body
  reply.header('content-encoding', 'gzip')
  return packed
}

const takesGzip = (accepted = ''): boolean => /(^|[\s,])gzip(?!\s*;\s*q=0(\.0*)?\s*(,|$))/i.test(accepted)
