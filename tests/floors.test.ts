import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { type Lock, tooOld } from './support/floors.ts'

const lock: Lock = JSON.parse(readFileSync(join(import.meta.dirname, '../package-lock.json'), 'utf8'))

/** The lock file as it would be with one package in a version of one's choice, wherever it lies. */
const withPackage = (path: string, version: string): Lock => ({
  packages: { ...lock.packages, [`node_modules/${path}`]: { version } },
})

it('installs no version of a package that has a known hole', () => {
  expect(Object.keys(lock.packages).length).toBeGreaterThan(100)
  expect(tooOld(lock)).toEqual([])
})

it.each([
  ['fastify', '5.8.4', 'CVE-2026-33806'],
  ['fastify', '4.99.99', 'CVE-2026-33806'],
  ['handlebars', '4.7.8', 'CVE-2026-33937'],
  ['x/node_modules/handlebars', '4.7.9', '4.7.10'],
  ['luxon', '3.2.0', 'CVE-2023-22467'],
  ['better-sqlite3', '12.8.0', 'walresetbug'],
  ['@fastify/view', '11.1.0', '11.1.1'],
  ['@fastify/static', '10.1.2', 'CVE-2026-7120'],
  ['fastify', '5.8.5-rc.1', 'fastify'],
])('is red with %s at %s', (path, version, told) => {
  const found = tooOld(withPackage(path, version))
  expect(found).toHaveLength(1)
  expect(found[0]).toContain(told)
})

it('is red when a package that the floors expect is gone under another name', () => {
  const { 'node_modules/fastify': _gone, ...packages } = lock.packages
  expect(tooOld({ packages })).toEqual([expect.stringContaining('fastify is not in the lock file')])
})

it('lets versions at and above a floor through', () => {
  for (const version of ['5.8.5', '5.10.0', '6.0.0']) expect(tooOld(withPackage('fastify', version))).toEqual([])
  expect(tooOld(withPackage('@fastify/static', '10.1.3'))).toEqual([])
})
