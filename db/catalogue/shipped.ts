import { readdirSync, readFileSync } from 'node:fs'
import type { Written } from './build.ts'
import { readOutreach } from './outreach.ts'
import { readStories } from './stories.ts'
import { readWorldEvents } from './world-events.ts'

/** What people wrote for the catalogue as it ships: the outreach list and its stories. */
export const shippedWriting = (): Written => ({
  outreach: readOutreach(),
  stories: readStories('en'),
  events: { en: readWorldEvents('en') },
})

/** Everything that decides what a built catalogue holds, file by file: the tables, and the code that reads them. */
export function* shippedText(): Generator<Buffer> {
  for (const folder of ['./', './outreach/']) {
    const url = new URL(folder, import.meta.url)
    for (const name of readdirSync(url).sort()) {
      if (/\.(csv|sql|ts)$/.test(name)) yield readFileSync(new URL(name, url))
    }
  }
}
