import { randomBytes, randomInt, scrypt, timingSafeEqual } from 'node:crypto'

const DIGITS = 6
const COST = 2 ** 15
const BLOCK_SIZE = 8
const HASH_BYTES = 32
/** Scrypt needs 128 * N * r bytes; the default ceiling of 32 MiB is just too low for this cost. */
const MAX_MEMORY_BYTES = 256 * COST * BLOCK_SIZE

/** A PIN of six digits that nobody can foresee. */
export const makePin = (): string => String(randomInt(10 ** DIGITS)).padStart(DIGITS, '0')

/** A PIN as it is kept: salt and hash in hexadecimal, parted by a colon. Runs off the main thread. */
export async function hashPin(pin: string): Promise<string> {
  const salt = randomBytes(16)
  return `${salt.toString('hex')}:${(await derive(pin, salt)).toString('hex')}`
}

/** True when the PIN is the kept one; takes the same work and time for a wrong one. */
export async function isPin(pin: string, kept: string): Promise<boolean> {
  const [salt = '', hash = ''] = kept.split(':')
  const tried = await derive(pin, Buffer.from(salt, 'hex'))
  const known = Buffer.from(hash, 'hex')
  return known.length === tried.length && timingSafeEqual(known, tried)
}

function derive(pin: string, salt: Buffer): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(pin, salt, HASH_BYTES, { N: COST, r: BLOCK_SIZE, p: 1, maxmem: MAX_MEMORY_BYTES }, (error, key) =>
      error ? reject(error) : resolve(key),
    )
  })
}
