import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** A sheet as a copier sees it. */
interface Sheet {
  readonly widthMm: number
  readonly heightMm: number
  /** How much ink is on it, in dots of black. */
  readonly ink: number
  /** What is left of it when everything is either black or white. */
  readonly copied: number
}

const DPI = 100
const MIDDLE = 128
const mmOf = (points: string): number => (Number(points) * 25.4) / 72

/** The words of a PDF in the order in which they were written, with single blanks. */
export const wordsOf = (file: string): string =>
  execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' }).replace(/\s+/g, ' ')

/** Every sheet of a PDF, as poppler draws it in greys. */
export function sheetsOf(file: string): Sheet[] {
  const info = execFileSync('pdfinfo', ['-l', '999', file], { encoding: 'utf8' })
  const sizes = [...info.matchAll(/Page\s+\d+ size:\s+([\d.]+) x ([\d.]+) pts/g)]
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-printed-'))
  try {
    execFileSync('pdftoppm', ['-gray', '-r', String(DPI), file, join(folder, 'sheet')])
    const pictures = readdirSync(folder).sort()
    return sizes.map(([, width = '0', height = '0'], i) => ({
      widthMm: mmOf(width),
      heightMm: mmOf(height),
      ...inkOf(readFileSync(join(folder, pictures[i] ?? ''))),
    }))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** The ink of a picture in the portable grey map: three lines of head, then a byte a dot. */
function inkOf(picture: Buffer): Pick<Sheet, 'ink' | 'copied'> {
  let at = 0
  for (let line = 0; line < 3; line++) at = picture.indexOf('\n', at) + 1
  let [ink, copied] = [0, 0]
  for (const grey of picture.subarray(at)) {
    ink += (255 - grey) / 255
    if (grey < MIDDLE) copied += 1
  }
  return { ink, copied }
}

/** How a text is printed. */
export interface PrintedText {
  readonly what: string
  readonly pt: number
  readonly fontStyle: string
  readonly ink: string
}

/** Every text of the document, those of drawings at the size in which the drawing is printed. */
export const PRINTED_TEXTS = `(() => {
  const speaks = (element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim() !== '')
  return [...document.querySelectorAll('main *')]
    .filter((element) => speaks(element) && !element.closest('title, desc, .unseen') && element.checkVisibility())
    .map((element) => {
      const style = getComputedStyle(element)
      const px = Number.parseFloat(style.fontSize)
      const drawing = element.ownerSVGElement
      const scale = drawing ? drawing.getScreenCTM().a : 1
      return {
        what: element.textContent.trim().slice(0, 40),
        pt: px * scale * 0.75,
        fontStyle: style.fontStyle,
        ink: drawing ? style.fill : style.color,
      }
    })
})()`

/** The texts whose letters leave their page at a side, or are cut off by what they stand in. */
export const CUT_TEXTS = `(() => {
  const pen = document.createElement('canvas').getContext('2d')
  // The box of a text is as high as its font; letters without marks or lower strokes need less.
  const inked = ({ left, right, top, bottom }, text, { fontWeight, fontFamily }) => {
    pen.font = fontWeight + ' 100px ' + fontFamily
    const sizes = pen.measureText(text)
    const px = (bottom - top) / (sizes.fontBoundingBoxAscent + sizes.fontBoundingBoxDescent)
    return {
      left,
      right,
      top: top + px * (sizes.fontBoundingBoxAscent - sizes.actualBoundingBoxAscent),
      bottom: bottom - px * (sizes.fontBoundingBoxDescent - sizes.actualBoundingBoxDescent),
    }
  }
  const leaves = ({ left, right, top, bottom }, room, isCut) =>
    left < room.left - 1 || right > room.right + 1 || (isCut && (top < room.top - 1 || bottom > room.bottom + 1))
  const found = []
  const walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT)
  while (walker.nextNode()) {
    const text = walker.currentNode.data.trim()
    const parent = walker.currentNode.parentElement
    if (text === '' || parent.closest('title, desc, .unseen') || !parent.checkVisibility()) continue
    const range = document.createRange()
    range.selectNodeContents(walker.currentNode)
    const boxes = [...range.getClientRects()]
    for (let around = parent; around && around.tagName !== 'MAIN'; around = around.parentElement) {
      const isCut = getComputedStyle(around).overflow !== 'visible'
      if (!isCut && !around.matches('.page')) continue
      const room = around.getBoundingClientRect()
      const isOut = (box) => leaves(box, room, isCut) && leaves(inked(box, text, getComputedStyle(parent)), room, isCut)
      if (!boxes.some(isOut)) continue
      found.push(text.slice(0, 60) + ' in ' + (around.getAttribute('class') ?? around.tagName))
      break
    }
  }
  return found
})()`
