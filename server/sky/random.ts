/**
 * A stream of numbers, 0 up to but not including 1, evenly spread and the same for the same seed (any finite number; its
 * integer part modulo 2^32 counts). A 32-bit counter with a multiply-and-shift mix, made for repeatable choices and not
 * for secrets.
 */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}
