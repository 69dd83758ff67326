import { describe, expect, it } from 'vitest'
import { secureOnlyIn, viewFiles } from '../support/secure-only.ts'

describe('pages on plain http', () => {
  it('name nothing that browsers keep for secure contexts', () => {
    const files = viewFiles()
    expect(files.filter(([file]) => file.startsWith('scripts/')).length).toBeGreaterThan(10)
    expect(files.flatMap(([file, text]) => secureOnlyIn(text).map((name) => `${file}: ${name}`))).toEqual([])
  })

  it('would be found naming it', () => {
    expect(secureOnlyIn("navigator.serviceWorker.register('/x')")).toEqual(['serviceWorker'])
    expect(secureOnlyIn('const key = crypto.randomUUID()')).toEqual(['randomUUID'])
    expect(secureOnlyIn("if ('wakeLock' in navigator) navigator?.['wakeLock'].request()")).toEqual(['wakeLock'])
    expect(secureOnlyIn('/** `randomUUID` is not there. */\n// nor Notification\nlocalStorage.setItem(a, b)')).toEqual(
      [],
    )
  })
})
