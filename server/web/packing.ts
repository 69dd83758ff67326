import { gzipSync } from 'node:zlib'
import type { FastifyReply, FastifyRequest } from 'fastify'

/** A body as it is, and in fewer bytes; null where it is packed already. Over plain http no browser offers anything smaller than gzip. */
export interface Packable {
  readonly body: Buffer
  readonly packed: Buffer | null
}

export const packable = (body: Buffer): Packable => ({ body, packed: gzipSync(body) })

/** The bytes to answer with, packed for whoever unpacks them; the headers say which. */
export function bytesFor({ headers }: FastifyRequest, reply: FastifyReply, { body, packed }: Packable): Buffer {
  if (packed === null) return body
  reply.header('vary', 'accept-encoding')
  if (!takesGzip(headers['accept-encoding'])) return body
  reply.header('content-encoding', 'gzip')
  return packed
}

const takesGzip = (accepted = ''): boolean => /(^|[\s,])gzip(?!\s*;\s*q=0(\.0*)?\s*(,|$))/i.test(accepted)
