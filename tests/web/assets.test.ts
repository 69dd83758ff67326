import { gunzipSync } from 'node:zlib'
import { beforeAll, describe, expect, it } from 'vitest'
import { type Assets, loadAssets } from '../../server/web/assets.ts'
import { SAFE_HEADERS } from '../../server/web/headers.ts'
import { asVisitor, testApp } from '../support/web.ts'

let assets: Assets
beforeAll(async () => {
  assets = await loadAssets()
})

describe('the assets', () => {
  it('are styles, scripts and fonts, each at an address that holds its digest', () => {
    const kinds = new Set(assets.all.map(({ name }) => name.split('.').at(-1)))
    expect(kinds).toEqual(new Set(['css', 'js', 'woff2']))
    for (const { path } of assets.all) expect(path).toMatch(/^\/assets\/[a-z0-9-]+\.[0-9a-f]{10}\.(css|js|woff2)$/)
  })

  it('are the same at the next start', async () => {
    expect((await loadAssets()).all.map(({ path }) => path)).toEqual(assets.all.map(({ path }) => path))
  })

  it('bring every font from here and nothing from elsewhere', () => {
    const fonts = String(assets.all.find(({ name }) => name === 'fonts.css')?.body)
    const addresses = [...fonts.matchAll(/url\(["']?([^"')]+)/g)].map(([, address]) => address)
    expect(addresses.length).toBeGreaterThan(0)
    for (const address of addresses) expect(assets.all.map(({ path }) => path)).toContain(address)
    for (const { type, body } of assets.all.filter(({ name }) => !name.endsWith('woff2'))) {
      expect(String(body), type).not.toMatch(/https?:\/\/(?!www\.w3\.org)/)
    }
  })

  it('refuse a name that is not there', () => expect(() => assets.path('none.css')).toThrow('none.css'))

  it('are served whole, to be kept for long, and nothing beside them is', async () => {
    const { app } = await testApp({ assets })
    for (const { path, type, body } of assets.all) {
      const answer = await app.inject(asVisitor({ url: path }))
      expect(answer.statusCode).toBe(200)
      expect(answer.headers).toMatchObject({
        ...SAFE_HEADERS,
        'content-type': type,
        'cache-control': 'public, max-age=31536000',
      })
      expect(answer.rawPayload.equals(body)).toBe(true)
      const packed = await app.inject(asVisitor({ url: path, headers: { 'accept-encoding': 'gzip' } }))
      const isPacked = packed.headers['content-encoding'] === 'gzip'
      expect(isPacked).toBe(!path.endsWith('woff2'))
      expect((isPacked ? gunzipSync(packed.rawPayload) : packed.rawPayload).equals(body)).toBe(true)
    }
    const first = assets.all[0]?.path ?? ''
    const probes = [
      '/assets/',
      '/assets/..%2fpackage.json',
      '/assets/../package.json',
      `${first}/`,
      `${first}.map`,
      '/.git/config',
      '/package.json',
      '/%2e%2e/package.json',
      '/assets/%00',
    ]
    for (const url of probes) expect((await app.inject(asVisitor({ url }))).statusCode, url).toBe(404)
    await app.close()
  })
})
