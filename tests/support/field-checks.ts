import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { TEXT_LOOKS, type TextLook } from './in-page.ts'

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']
const PT_TO_PX = 96 / 72

/** What an automatic check of accessibility finds on the page as it stands. */
export async function faultsOf(page: Page): Promise<readonly string[]> {
  const axe = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).withTags(WCAG)
  // No page has frames; for those alone the usual mode opens a second, blank page each time.
  const { violations } = await axe.setLegacyMode().analyze()
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)
}

/** The height in CSS pixels of the lowest visible element of a kind; Infinity where there is none. */
export async function lowestPx(page: Page, selector: string): Promise<number> {
  const boxes = await Promise.all((await page.locator(selector).all()).map((element) => element.boundingBox()))
  return Math.min(...boxes.flatMap((box) => (box === null ? [] : [box.height])))
}

/** The size in CSS pixels of the smallest text on the page. */
export async function smallestTextPx(page: Page): Promise<number> {
  const looks = await page.evaluate<TextLook[]>(TEXT_LOOKS)
  return Math.min(...looks.map(({ pt }) => pt * PT_TO_PX))
}
