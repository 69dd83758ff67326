/** Questions to a page in the browser, as the text of an expression: the types of the service know no document. */

export interface TextLook {
  readonly pt: number
  readonly fontStyle: string
  readonly color: string
}

/** How wide the page is, in CSS pixels; more than the window when it scrolls sideways. */
export const SCROLL_WIDTH = 'document.documentElement.scrollWidth'

/** The look of every visible text of the page, its size in points (96 CSS pixels are 72 points). */
export const TEXT_LOOKS = `[...document.querySelectorAll('main *')]
  .filter((element) => element.textContent.trim() && element.checkVisibility() && !element.classList.contains('unseen'))
  .map((element) => getComputedStyle(element))
  .map(({ fontSize, fontStyle, color }) => ({ pt: Number.parseFloat(fontSize) * 0.75, fontStyle, color }))`

/** Whether Andika is loaded, and how wide each of its digits is at 100 px. */
export const DIGITS = `document.fonts.load('100px Andika').then((faces) => {
  const context = document.createElement('canvas').getContext('2d')
  context.font = '100px Andika'
  return { faces: faces.length, widths: [...'0123456789'].map((digit) => context.measureText(digit).width) }
})`

/** The largest red, and the largest green or blue, of a picture given as base64 of a PNG. */
export const brightestOf = (base64: string): string => `(async () => {
  const image = new Image()
  image.src = 'data:image/png;base64,${base64}'
  await image.decode()
  const canvas = new OffscreenCanvas(image.width, image.height)
  const context = canvas.getContext('2d')
  context.drawImage(image, 0, 0)
  const { data } = context.getImageData(0, 0, image.width, image.height)
  let [red, greenOrBlue] = [0, 0]
  for (let i = 0; i < data.length; i += 4) {
    red = Math.max(red, data[i])
    greenOrBlue = Math.max(greenOrBlue, data[i + 1], data[i + 2])
  }
  return { red, greenOrBlue }
})()`

/** Width, height and all dots (red, green, blue, opacity in turn) of a picture given as base64 of a PNG. */
export const dotsOf = (base64: string): string => `(async () => {
  const image = new Image()
  image.src = 'data:image/png;base64,${base64}'
  await image.decode()
  const { width, height } = image
  const context = new OffscreenCanvas(width, height).getContext('2d')
  context.drawImage(image, 0, 0)
  return { width, height, dots: [...context.getImageData(0, 0, width, height).data] }
})()`

/** How the printed cards begin that do not hold all that stands on them, on either side. */
export const CUT_CARDS = `[...document.querySelectorAll('.card')]
  .filter((card) => card.lastElementChild.getBoundingClientRect().bottom > card.getBoundingClientRect().bottom + 0.5)
  .map((card) => card.textContent.trim().slice(0, 60))`

/** How large something on the page is, in CSS pixels. */
export interface Box {
  readonly what: string
  readonly width: number
  readonly height: number
}

/** Everything on the page that can be tapped, as far as it is to be seen. */
export const TARGETS = `[...document.querySelectorAll('main :is(a, button, summary, input:not([type=hidden]))')]
  .filter((element) => element.checkVisibility())
  .map((element) => {
    const { width, height } = element.getBoundingClientRect()
    return { what: element.outerHTML.slice(0, 80), width, height }
  })`

/** How an ink stands out from what lies behind it, as WCAG reckons it: from 1 to 21. */
export interface Contrast {
  readonly what: string
  readonly ratio: number
}

/** Colours as the page has worked them out; one that is seen through is mixed with what lies behind it. */
const INKS = `
  const rgba = (text) => {
    if (!/^rgba?\\(/.test(text)) throw new Error('Not a colour that the test knows: ' + text)
    const [red, green, blue, alpha = 1] = text.match(/[\\d.]+/g).map(Number)
    return { rgb: [red, green, blue], alpha }
  }
  const over = ({ rgb, alpha }, behind) => rgb.map((part, i) => part * alpha + behind[i] * (1 - alpha))
  const behindOf = (element) => {
    if (!element) throw new Error('Nothing opaque lies behind the page')
    const own = rgba(getComputedStyle(element).backgroundColor)
    return own.alpha === 1 ? own.rgb : over(own, behindOf(element.parentElement))
  }
  const dimmed = (element) => (element ? Number(getComputedStyle(element).opacity) * dimmed(element.parentElement) : 1)
  const light = (rgb) => rgb
    .map((part) => part / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4))
    .reduce((sum, part, i) => sum + part * [0.2126, 0.7152, 0.0722][i], 0)
  const ratioOf = (a, b) => {
    const [low, high] = [light(a), light(b)].sort((x, y) => x - y)
    return (high + 0.05) / (low + 0.05)
  }
  const seen = [...document.querySelectorAll('body, body *')].filter((element) => element.checkVisibility({ visibilityProperty: true }))
  const nameOf = (element) => element.outerHTML.slice(0, 90)
  const stand = (element, colour) => {
    const ink = rgba(colour)
    const behind = behindOf(element)
    return ratioOf(over({ ...ink, alpha: ink.alpha * dimmed(element) }, behind), behind)
  }`

/** The contrast of every visible text: of elements, of what styles put before or after them, of fields and their hints, of drawings. */
export const TEXT_CONTRASTS = `(() => {${INKS}
  const speaks = (element) => [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim() !== '')
  const found = []
  for (const element of seen) {
    const style = getComputedStyle(element)
    if (speaks(element) && !['SCRIPT', 'STYLE', 'TITLE'].includes(element.tagName.toUpperCase())) {
      const colour = element instanceof SVGElement ? style.fill : style.color
      if (colour !== 'none') found.push({ what: nameOf(element), ratio: stand(element, colour) })
    }
    if (element.matches('input:not([type=hidden], [type=radio], [type=checkbox]), select, textarea')) {
      found.push({ what: nameOf(element), ratio: stand(element, style.color) })
      if (element.placeholder) {
        found.push({ what: 'hint of ' + nameOf(element), ratio: stand(element, getComputedStyle(element, '::placeholder').color) })
      }
    }
    for (const part of ['::before', '::after']) {
      const own = getComputedStyle(element, part)
      if (/^"[^"]*[^\\s"]/.test(own.content)) found.push({ what: part + ' of ' + nameOf(element), ratio: stand(element, own.color) })
    }
  }
  return found
})()`

/** How every visible border, and every control without one, stands out from what lies around it: by its line, else by its fill. */
export const BORDER_CONTRASTS = `(() => {${INKS}
  const found = []
  for (const element of seen.filter((each) => each.parentElement)) {
    const style = getComputedStyle(element)
    const around = behindOf(element.parentElement)
    const sides = ['Top', 'Right', 'Bottom', 'Left'].filter(
      (side) => Number.parseFloat(style['border' + side + 'Width']) > 0 && !['none', 'hidden'].includes(style['border' + side + 'Style']),
    )
    const isControl = element.matches('button, select, textarea, input:not([type=hidden], [type=radio], [type=checkbox])')
    if (sides.length === 0 && !isControl) continue
    const lines = sides.map((side) => ratioOf(over(rgba(style['border' + side + 'Color']), around), around))
    const fill = ratioOf(behindOf(element), around)
    found.push({ what: nameOf(element), ratio: Math.max(fill, Math.min(...(lines.length > 0 ? lines : [1]))) })
  }
  return found
})()`

/** How the mark of what the keyboard is at stands out; null when there is none, and nothing at the end of the page. */
export const FOCUS_CONTRAST = `(() => {${INKS}
  const element = document.activeElement
  if (!element || element === document.body) return undefined
  const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(element)
  const isDrawn = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2
  return { what: nameOf(element), ratio: isDrawn ? stand(element.parentElement, outlineColor) : 0 }
})()`
