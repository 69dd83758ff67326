import { createHash, createHmac, randomBytes, randomInt, timingSafeEqual } from 'node:crypto'

/** Crockford's base 32: without I, L, O and U, so that nothing is mistaken in the dark. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'
const CODE_LENGTH = 8
const TOKEN_BYTES = 16
const QUICK_DIGITS = 4

/** The way in for phones: the token of the QR code, and the code to type. */
export interface JoinCodes {
  readonly token: string
  /** Eight characters, 40 bits. */
  readonly code: string
}

/** The codes of a night; each turn gives others. */
export function joinCodes(secret: Buffer, nightId: string, turn: number): JoinCodes {
  const digest = (what: string): Buffer => createHmac('sha256', secret).update(`${what}\n${nightId}\n${turn}`).digest()
  const letters = [...digest('code').subarray(0, CODE_LENGTH)].map((byte) => LETTERS[byte % LETTERS.length] ?? '')
  return { token: digest('token').subarray(0, TOKEN_BYTES).toString('base64url'), code: letters.join('') }
}

/** Four digits that nobody can foresee. */
export const quickDigits = (): string => String(randomInt(10 ** QUICK_DIGITS)).padStart(QUICK_DIGITS, '0')

/** A typed code as it is compared: capitals, without blanks and dashes, and with the letters that are mistaken for digits taken as those. */
export const plainCode = (typed: string): string =>
  typed.toUpperCase().replaceAll(/[\s-]/g, '').replaceAll('O', '0').replaceAll(/[IL]/g, '1')

/** True for what is too long for a code or digits, so that it opens as a token or not at all: nobody guesses 128 bits. */
export const isScanned = (secret: string): boolean => plainCode(secret).length > CODE_LENGTH

/** A code in two halves, as it is read out and printed. */
export const spacedCode = (code: string): string => `${code.slice(0, CODE_LENGTH / 2)} ${code.slice(CODE_LENGTH / 2)}`

/** True for equal texts that are not empty, in a time that does not tell where they part. */
export const isSameSecret = (a: string, b: string): boolean => b !== '' && timingSafeEqual(sha256(a), sha256(b))

/** A token of 128 bits, and what is kept of it. */
export const newToken = (): string => randomBytes(TOKEN_BYTES).toString('base64url')
export const hashOf = (token: string): string => sha256(token).toString('hex')

const sha256 = (text: string): Buffer => createHash('sha256').update(text).digest()
