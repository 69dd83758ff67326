// Fetches a page of the field anew every so often, for what changes by the clock alone: a wait, a line to be closed.
import { rootOf } from './current.ts'
import { renew } from './renew.ts'
import { quiet } from './touch.ts'

/** Renews the page about every so many milliseconds while somebody looks at it, no two phones at the same moment. */
export function renewSteadily(everyMs: number): void {
  const wait = () => setTimeout(() => once().finally(wait), everyMs * (0.8 + 0.4 * Math.random()))
  wait()
}

async function once(): Promise<void> {
  if (document.hidden) return
  const response = await fetch(location.href).catch(() => null)
  if (!response?.ok) return
  const page = new DOMParser().parseFromString(await response.text().catch(() => ''), 'text/html')
  await quiet()
  const [root, fresh] = [rootOf(), page.querySelector('[data-field]')]
  if (root && fresh) renew(root, fresh)
}
