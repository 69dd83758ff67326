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

/** Names of the printed cards whose words do not fit. */
export const CUT_CARDS = `[...document.querySelectorAll('.card')]
  .filter((card) => card.querySelector('.foot').getBoundingClientRect().bottom > card.getBoundingClientRect().bottom + 0.5)
  .map((card) => card.querySelector('h2').textContent)`
