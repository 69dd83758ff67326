import { join } from 'node:path'
import { PAGES, pageAddress } from '../support/page-addresses.ts'
import { openPage, type Studio, WINDOWS } from './studio.ts'

/** Pages for people who have not signed in. */
const FOR_ANYBODY = /^(sign-in|join(-lamp)?|tonight(-lamp)?)$/
/** Documents to be printed; they are taken from the printer's side. */
const PRINTED = /^(run-sheet|check-sheet|sheets|cards|join-card|report-print|site-notes-print)$/
/** What someone sees who comes to an address that is none; it is no page of the list. */
const PROBLEM = { name: 'problem', address: '/nowhere', status: 404 }

/** The names of the pages that are taken, in the order of their files. */
export const pageNames = (): readonly string[] =>
  [...Object.keys(PAGES).filter((name) => !PRINTED.test(name)), PROBLEM.name].sort()

/** Takes a page whole, as a laptop and as a phone show it, and answers the files. */
export async function takePage({ url, places, host, visitor, folder }: Studio, name: string): Promise<string[]> {
  const page = FOR_ANYBODY.test(name) ? visitor : host
  const [address, status] =
    name === PROBLEM.name ? [PROBLEM.address, PROBLEM.status] : [pageAddress(name, places), undefined]
  const files: string[] = []
  for (const [window, size] of Object.entries(WINDOWS)) {
    await page.setViewportSize(size)
    await openPage(page, url + address, status)
    const path = join(folder, `page-${name}-${window}.png`)
    await page.screenshot({ path, fullPage: true })
    files.push(path)
  }
  return files
}
