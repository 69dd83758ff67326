import type { AppNeeds } from '../../server/app.ts'
import { readWordTables } from '../../server/web/language.ts'
import { pageWriter } from '../../server/web/views.ts'
import { ASSETS } from './assets.ts'
import { type TestApp, testApp } from './web.ts'

/** The service over a fake desk, with its real pages in every language. */
export async function pagedApp(more: Partial<AppNeeds> = {}): Promise<TestApp> {
  const assets = await ASSETS
  return testApp({ words: readWordTables(), assets, writePage: pageWriter(assets), ...more })
}
