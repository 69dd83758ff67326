import { renameSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { pageAddress } from '../support/page-addresses.ts'
import { printedSheets } from './papers.ts'
import { openPage, type Studio } from './studio.ts'

/** Where the pictures of the README are kept. */
export const README_FOLDER = join(import.meta.dirname, '../../seed-demo/pictures')

/** What a picture of the README may weigh, so that the page of the project opens on a slow line. */
const MOST_BYTES = 120_000
const DOTS_PER_INCH = 72

interface Shot {
  readonly file: string
  readonly page: string
  readonly by: 'host' | 'visitor'
  readonly width: number
  readonly height: number
  /** How large the page is drawn, where it should weigh less; 1 is as people see it. */
  readonly zoom?: number
}

const SHOTS: readonly Shot[] = [
  { file: '1-board.png', page: 'board', by: 'host', width: 936, height: 1000, zoom: 0.75 },
  { file: '2-station-by-lamp.png', page: 'field', by: 'host', width: 390, height: 760 },
  { file: '3-visitors.png', page: 'tonight', by: 'visitor', width: 390, height: 760 },
]

interface Print {
  readonly piece: string
  readonly query?: string
  /** The names of the files, by the sheet that each is. */
  readonly files: Readonly<Record<number, string>>
}

const PRINTS: readonly Print[] = [
  { piece: 'run-sheet', files: { 1: '4-run-sheet.png' } },
  { piece: 'cards', query: '&cards=a6', files: { 1: '5-card-front.png', 2: '6-card-back.png' } },
  { piece: 'sky', files: { 1: '7-whole-sky.png' } },
]

/** Takes what a window shows without scrolling, and answers the files. */
export async function takeShots({ url, places, folder, ...browsers }: Studio): Promise<string[]> {
  const files: string[] = []
  for (const { file, page: name, by, width, height, zoom = 1 } of SHOTS) {
    const page: Page = browsers[by]
    await page.setViewportSize({ width, height })
    await openPage(page, url + pageAddress(name, places))
    await page.evaluate(`document.documentElement.style.zoom = ${zoom}`)
    const path = join(folder, file)
    await page.screenshot({ path })
    files.push(path)
  }
  return files
}

/** Prints what the README shows of the papers, and answers the files. */
export async function takePrints({ url, places, host, folder }: Studio): Promise<string[]> {
  const kept: string[] = []
  for (const { piece, query = '', files } of PRINTS) {
    await openPage(host, `${url}/nights/${places.night}/print/${piece}?paper=a4${query}`)
    const sheets = await printedSheets(host, join(folder, `sheet-${piece}`), DOTS_PER_INCH)
    for (const [i, sheet] of sheets.entries()) {
      const name = files[i + 1]
      if (name === undefined) rmSync(sheet)
      else kept.push(moved(sheet, join(folder, name)))
    }
  }
  return kept
}

function moved(from: string, to: string): string {
  renameSync(from, to)
  return to
}

/** Those of the files that are heavier than the README should carry. */
export const tooHeavy = (files: readonly string[]): readonly string[] =>
  files.filter((file) => statSync(file).size > MOST_BYTES)
