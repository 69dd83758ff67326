import { randomBytes } from 'node:crypto'

const KEY_BYTES = 15

/** The key of one mark that a form will send, unlike any other. */
export const newKey = (): string => randomBytes(KEY_BYTES).toString('base64url')
