import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { CHROMIUM, launch } from '../support/chromium.ts'
import { recordRow } from '../support/fault-rows.ts'
import { secureOnlyIn, viewFiles } from '../support/secure-only.ts'
import { isField, isLaptop, readWatched, watched } from '../support/watched-browser.ts'
import { watchedRun } from '../support/watched-run.ts'

const FILES = (process.env.FILES ?? '').split(' ').filter((file) => file !== '')

const isThere = existsSync(CHROMIUM)

it.skipIf(!isThere)(
  'the tests of the browser pass on pages that are no secure context, which ask nobody else',
  async () => {
    const { tests, failed, seen } = await watchedRun(FILES)
    const documents = seen.filter((each) => each.kind === 'document')
    const inField = documents.filter(({ url }) => isField(url))
    const wronglySecure = inField.filter(({ isSecure }) => isSecure)
    // A laptop's own pages are a secure context by nature: there what the field has not is taken away.
    const atLaptop = documents.filter(({ url }) => URL.canParse(url) && isLaptop(url))
    const unscripted = seen.filter(({ kind }) => kind === 'unscripted')
    const uses = seen.filter((each) => each.kind === 'use').map(({ name, url }) => `${name} on ${url}`)
    const elsewhere = seen.filter(({ kind }) => kind === 'elsewhere').map(({ url }) => url)
    const named = viewFiles().flatMap(([file, text]) => secureOnlyIn(text).map((name) => `${file}: ${name}`))
    const reached =
      `${tests - failed.length} of ${tests} tests; ${inField.length} pages under a name of the field, ` +
      `${wronglySecure.length} of them a secure context; ${atLaptop.length} at the laptop, secure by nature, with what ` +
      `the field lacks taken away; ${unscripted.length} without scripts; ${uses.length} uses of it, ${named.length} ` +
      `names of it in the scripts; ${elsewhere.length} requests to anyone else`
    console.log(reached)
    const wrong = [...failed, ...wronglySecure.map(({ url }) => url), ...uses, ...named, ...elsewhere]
    const isReached = FILES.length === 0 && wrong.length === 0 && inField.length > 0
    recordRow({ row: 8, reached, isReached, seed: null, count: documents.length + unscripted.length })
    expect(inField.length).toBeGreaterThan(0)
    expect([...new Set(wrong)]).toEqual([])
  },
)

it.skipIf(!isThere)('hears of a use, of a request to somebody else, and of what its pages are', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-watched-'))
  const file = join(folder, 'pages')
  writeFileSync(file, '')
  const browser = watched(await launch(), file)
  try {
    const page = await browser.newPage()
    const looks = 'typeof navigator.serviceWorker, typeof crypto.randomUUID'
    await page.goto(`data:text/html,<img src=http://elsewhere.example/x><script>${looks}</script>`)
    await page.evaluate(`[${looks}]`)
  } finally {
    await browser.close()
  }
  const seen = readWatched(file)
  rmSync(folder, { recursive: true })
  const uses = seen.filter((each) => each.kind === 'use').map(({ name }) => name)
  expect(uses).toEqual(['navigator.serviceWorker', 'crypto.randomUUID'])
  expect(seen).toContainEqual({ kind: 'elsewhere', url: 'http://elsewhere.example/x' })
  expect(seen).toContainEqual(expect.objectContaining({ kind: 'document', isSecure: false }))
})
