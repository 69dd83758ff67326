/** Questions about what people meet who use a page by keyboard, enlarged or with room between the letters: expressions, like those of `in-page.ts`. */

/** The least width and height of what can be pressed, in CSS pixels (WCAG 2.5.8). */
const LEAST_TARGET_PX = 24

/** What is wrong with a thing while it has the focus; its labels are pressed for it too. */
const STOPS = `
  const nameOf = (element) => element.outerHTML.replaceAll(/\\s+/g, ' ').slice(0, 90)
  const partsOf = (element) => [element, ...(element.labels ?? [])]
  const isSeen = (part) => [...part.getClientRects()].some((box) => {
    const [left, right] = [Math.max(box.left, 0), Math.min(box.right, innerWidth)]
    const [top, bottom] = [Math.max(box.top, 0), Math.min(box.bottom, innerHeight)]
    if (right - left < 2 || bottom - top < 2) return false
    const on = document.elementFromPoint((left + right) / 2, (top + bottom) / 2)
    return on !== null && part.contains(on)
  })
  const isMarked = (part) => {
    const { outlineStyle, outlineWidth } = getComputedStyle(part)
    return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2
  }
  const isLarge = (part) => {
    const { width, height } = part.getBoundingClientRect()
    return Math.min(width, height) >= ${LEAST_TARGET_PX}
  }
  const blockOf = (element) => (getComputedStyle(element).display === 'inline' ? blockOf(element.parentElement) : element)
  const isInSentence = (element) =>
    getComputedStyle(element).display === 'inline' && blockOf(element).textContent.trim() !== element.textContent.trim()
  const faultsAt = (element) => {
    const parts = partsOf(element)
    return [
      parts.some(isSeen) ? [] : 'not to be seen while it has the focus',
      [...parts, element.parentElement].some(isMarked) ? [] : 'not marked while it has the focus',
      parts.some(isLarge) || isInSentence(element) ? [] : 'too small to be pressed',
    ].flat().map((fault) => fault + ': ' + nameOf(element))
  }`

/** Where the keyboard is. */
export interface Stop {
  readonly isInside: boolean
  readonly faults: readonly string[]
}

/** What is wrong with what has the focus, and whether that is within what a selector names. */
export const stopWithin = (selector: string): string => `(() => {${STOPS}
  const element = document.activeElement
  if (!element || element === document.body) return { isInside: false, faults: [] }
  return { isInside: element.closest(${JSON.stringify(selector)}) !== null, faults: faultsAt(element) }
})()`

/** What is wrong with anything that the keyboard comes to, each given the focus in turn; once a key was pressed, since marks are for keyboards. */
export const EVERY_STOP = `(() => {${STOPS}
  return [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex]')]
    .filter((element) => element.checkVisibility({ visibilityProperty: true }) && element.tabIndex >= 0 && !element.matches(':disabled'))
    .map((element) => {
      element.focus()
      return faultsAt(element)
    })
})()`

/** Opens everything that is folded. */
export const UNFOLD = `for (const each of document.querySelectorAll('details')) each.open = true`

/** Gives words the room that readers may give them (WCAG 1.4.12); a drawing is a picture and keeps its own. */
export const SPACE_OUT = `(() => {
  const sheet = new CSSStyleSheet()
  sheet.replaceSync(
    '*:not(svg *) { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }' +
    'p { margin-block-end: 2em !important }',
  )
  document.adoptedStyleSheets.push(sheet)
})()`

/** The words that the edge of their room cuts in two, but for those that say where they may part (soft hyphens). */
export const PARTED_WORDS = `(() => {
  const isForListeners = (one) => one !== null && (getComputedStyle(one).clipPath === 'inset(50%)' || isForListeners(one.parentElement))
  const linesOf = (text, start, length) => {
    const range = document.createRange()
    range.setStart(text, start)
    range.setEnd(text, start + length)
    return new Set([...range.getClientRects()].filter(({ width }) => width > 0).map(({ top }) => Math.round(top))).size
  }
  const found = []
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  while (walker.nextNode()) {
    const { currentNode: text } = walker
    const parent = text.parentElement
    if (parent.closest('svg, select, textarea, script') || !parent.checkVisibility({ visibilityProperty: true })) continue
    if (isForListeners(parent)) continue
    for (const { 0: word, index } of text.data.matchAll(/[\\p{L}\\d\\u00ad]{2,}/gu)) {
      if (!word.includes('\\u00ad') && linesOf(text, index, word.length) > 1) found.push(word)
    }
  }
  return found
})()`

/** The texts that leave what they stand in by more than half a letter, or are cut off by it; what scrolls holds all. */
export const SPILT_TEXTS = `(() => {
  const leaves = (text, room, slack) =>
    text.left < room.left - slack || text.right > room.right + slack || text.top < room.top - slack || text.bottom > room.bottom + slack
  const isSpilt = (text, parent) => {
    const range = document.createRange()
    range.selectNodeContents(text)
    const box = range.getBoundingClientRect()
    const slack = Number.parseFloat(getComputedStyle(parent).fontSize) / 2
    let isHeld = false
    for (let around = parent; around !== document.body; around = around.parentElement) {
      const { display, overflowX, overflowY } = getComputedStyle(around)
      if (display === 'inline' || display === 'contents') continue
      const overflows = [overflowX, overflowY]
      if (overflows.some((each) => each === 'auto' || each === 'scroll')) return false
      const isCut = overflows.some((each) => each === 'hidden' || each === 'clip')
      if ((isCut || !isHeld) && leaves(box, around.getBoundingClientRect(), slack)) return true
      isHeld = true
    }
    return false
  }
  const isForListeners = (one) => one !== null && (getComputedStyle(one).clipPath === 'inset(50%)' || isForListeners(one.parentElement))
  const found = []
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
  while (walker.nextNode()) {
    const { data, parentElement: parent } = walker.currentNode
    const isRead = data.trim() !== '' && !parent.closest('.skip, svg, select, script') && !isForListeners(parent)
    if (isRead && parent.checkVisibility({ visibilityProperty: true }) && isSpilt(walker.currentNode, parent)) {
      found.push(data.trim().slice(0, 60))
    }
  }
  return found
})()`
