import { decodeQR } from 'qr/decode.js'
import { describe, expect, it } from 'vitest'
import { qrCode } from '../../server/drawings/qr-code.ts'

const PX = 4
const TOKEN = 'AbCdEfGhIjKlMnOpQrSt-_'
const ADDRESS = `http://192.168.137.1:8080/join#${TOKEN}`

/** A drawing as dots, dark ones true: its bars are painted as a browser would paint them. */
function painted(svg: string): { readonly side: number; readonly isDark: (x: number, y: number) => boolean } {
  const side = Number(/viewBox="0 0 (\d+) \1"/.exec(svg)?.[1])
  const bars = [...svg.matchAll(/M(\d+) (\d+)h(\d+)v1H(\d+)z/g)].map((found) => found.slice(1).map(Number))
  const dark = new Set<number>()
  for (const [x = 0, y = 0, length = 0, back] of bars) {
    expect(back).toBe(x)
    for (let at = x; at < x + length; at++) dark.add(y * side + at)
  }
  return { side, isDark: (x, y) => dark.has(y * side + x) }
}

/** What a camera reads in a drawing. */
function scanned(svg: string): string {
  const { side, isDark } = painted(svg)
  const size = side * PX
  const data = new Uint8Array(size * size * 4)
  for (let at = 0; at < size * size; at++) {
    const [x, y] = [Math.floor((at % size) / PX), Math.floor(at / size / PX)]
    data.set(isDark(x, y) ? [0, 0, 0, 255] : [255, 255, 255, 255], at * 4)
  }
  return decodeQR({ width: size, height: size, data }, { timeLimit: 2_000 })
}

describe('a QR code', () => {
  it.each([
    ADDRESS,
    'http://10.42.0.1/join#0123456789012345678901',
    'http://192.168.137.1:65535/join?as=host#AbCdEfGhIjKlMnOpQrSt-_',
    'http://172.20.10.4:8080/tonight/0p0dmjwghx',
  ])('reads as %s', (text) => expect(scanned(qrCode(text, 'x'))).toBe(text))

  it('is black on white with four light modules around it', () => {
    const svg = qrCode(ADDRESS, 'x')
    const { side, isDark } = painted(svg)
    expect(svg).toContain(`<rect width="${side}" height="${side}" fill="#ffffff">`)
    expect([...svg.matchAll(/fill="([^"]+)"/g)].map(([, fill]) => fill)).toEqual(['#ffffff', '#000000'])
    const all = Array.from({ length: side * side }, (_, at) => [at % side, Math.floor(at / side)] as const)
    const atEdge = (place: number) => place < 4 || place >= side - 4
    expect(all.filter(([x, y]) => isDark(x, y) && (atEdge(x) || atEdge(y)))).toEqual([])
    for (const corner of [4, side - 5]) expect(isDark(4, corner) && isDark(corner, 4)).toBe(true)
  })

  it('is of level M: its format bits say so', () => {
    const { isDark } = painted(qrCode(ADDRESS, 'x'))
    const firstTwo = [isDark(4, 12), isDark(5, 12)].map(Number)
    // The first two format bits, unmasked by 10: level M is 00.
    expect([firstTwo[0] === 1, firstTwo[1] === 1]).toEqual([true, false])
  })

  it('says what it is and not what it holds', () => {
    const svg = qrCode(ADDRESS, 'Code to <scan>')
    expect(svg).toContain('<title>Code to &lt;scan&gt;</title>')
    expect(svg).not.toContain(TOKEN)
  })

  it('is read although a twelfth of it is dirty', () => {
    const svg = qrCode(ADDRESS, 'x')
    const { side } = painted(svg)
    const dirt = Array.from({ length: 5 }, (_, row) => `M${side - 12} ${15 + row}h8v1H${side - 12}z`).join('')
    expect(scanned(svg.replace('z"', `z${dirt}"`))).toBe(ADDRESS)
  })
})
