import { randomBytes } from 'node:crypto'

const LETTERS = '0123456789abcdefghjkmnpqrstvwxyz'

/** A new random name for a thing of the host's: ten letters and digits without those that look alike (50 bits). */
export const newId = (): string => Array.from(randomBytes(10), (byte) => LETTERS[byte % LETTERS.length]).join('')
