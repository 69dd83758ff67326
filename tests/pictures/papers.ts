import { execFileSync } from 'node:child_process'
import { readdirSync, rmSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { Page } from 'playwright-core'
import { PIECE_NAMES } from '../../server/web/pages/papers.ts'
import type { DemoPlaces } from '../support/page-addresses.ts'
import { openPage, type Studio } from './studio.ts'

const SIZES = ['a4', 'letter'] as const
const DOTS_PER_INCH = 60

/** Every paper by its name with its address, in the order in which they are printed. */
const addresses = ({ night, site }: Pick<DemoPlaces, 'night' | 'site'>): readonly (readonly [string, string])[] => [
  ...[...PIECE_NAMES, 'join-card'].map((name) => [name, `/nights/${night}/print/${name}`] as const),
  ['report', `/nights/${night}/report/print`],
  ['site-notes-of-the-site', `/sites/${site}/notes/print`],
]

/** The names of the papers, which sort in the order of printing. */
export const paperNames = (): readonly string[] => addresses({ night: '', site: '' }).map(([name], i) => named(name, i))

const named = (name: string, i: number): string => `paper-${String(i + 1).padStart(2, '0')}-${name}`

/** Prints a paper on both sizes and answers a file for each of its sheets. */
export async function takePaper({ url, places, host, folder }: Studio, name: string): Promise<string[]> {
  const [, address = ''] = addresses(places).find(([piece], i) => named(piece, i) === name) ?? []
  const files: string[] = []
  for (const size of SIZES) {
    await openPage(host, `${url}${address}?paper=${size}`)
    files.push(...(await printedSheets(host, join(folder, `${name}-${size}`), DOTS_PER_INCH)))
  }
  return files
}

/** Prints the open page, turns each sheet into a picture whose name begins with `stem`, and answers these. */
export async function printedSheets(page: Page, stem: string, dotsPerInch: number): Promise<string[]> {
  const file = `${stem}.pdf`
  await page.pdf({ path: file, preferCSSPageSize: true, printBackground: false })
  execFileSync('pdftoppm', ['-r', String(dotsPerInch), '-gray', '-png', file, stem])
  rmSync(file)
  const [folder, start] = [join(stem, '..'), `${basename(stem)}-`]
  const isSheet = (name: string): boolean => name.startsWith(start) && /^\d+\.png$/.test(name.slice(start.length))
  return readdirSync(folder)
    .filter(isSheet)
    .sort()
    .map((name) => join(folder, name))
}

/** True where a PDF can be turned into pictures. */
export function canDrawPaper(): boolean {
  try {
    execFileSync('pdftoppm', ['-v'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}
