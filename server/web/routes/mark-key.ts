import { randomBytes } from 'node:crypto'
import type { FastifyReply } from 'fastify'

const KEY_BYTES = 15

/** The key of one mark that a form will send, unlike any other. */
export const newKey = (): string => randomBytes(KEY_BYTES).toString('base64url')

/** The same for the forms of a page that is kept: one that holds such keys is answered once, or two people would send the same. */
export const newKeyIn = (reply: FastifyReply) => (): string => {
  reply.use = 'once'
  return newKey()
}
