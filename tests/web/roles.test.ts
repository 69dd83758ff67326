import Fastify from 'fastify'
import { describe, expect, it } from 'vitest'
import { localPath, nameRoles } from '../../server/web/roles.ts'

describe('a service with a route that names no role', () => {
  it('refuses to start', () => {
    const app = Fastify()
    nameRoles(app, () => {})
    expect(() => app.get('/open', async () => 'hello')).toThrow('/open names no role')
  })
})

describe('localPath', () => {
  it.each(['/', '/nights/night-1?lang=en', '/a-b_c~%20'])('keeps %s', (path) => expect(localPath(path)).toBe(path))

  it.each([
    '//evil.example',
    '/\\evil.example',
    'https://evil.example',
    'evil',
    '',
    '/\tx',
    '/a b',
    undefined,
    '/x\r\nSet-Cookie: a',
  ])('turns %j into the first page', (path) => expect(localPath(path)).toBe('/'))
})
