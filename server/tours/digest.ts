/** Sixteen hexadecimal digits that stand for a text: two 32-bit FNV-1a sums over its UTF-16 units, forwards and backwards. */
export function digestOf(text: string): string {
  return sum(text, 0, 1) + sum(text, text.length - 1, -1)
}

function sum(text: string, from: number, step: number): string {
  let hash = 0x811c9dc5
  for (let i = from; i >= 0 && i < text.length; i += step) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  return (hash >>> 0).toString(16).padStart(8, '0')
}
