import { spawn } from 'node:child_process'
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { transformSync } from 'esbuild'
import { afterAll, expect, it } from 'vitest'

const ROOT = join(import.meta.dirname, '../..')
const PREFLIGHT = join(ROOT, 'server/preflight')
const folder = mkdtempSync(join(tmpdir(), 'duskrow-preflight-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Runs the preflight of a copy of the program to its end. */
async function start(root: string, ...args: string[]) {
  const child = spawn(process.execPath, [join(root, 'server/preflight/main.mjs'), ...args], { cwd: root })
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text))
  const code = await new Promise<number | null>((resolve) => child.once('close', resolve))
  return { code, lines: said.trimEnd().split('\n') }
}

/** The program as it was unpacked, with whatever packages a test puts there. */
function unpacked(name: string): string {
  const root = join(folder, name)
  cpSync(PREFLIGHT, join(root, 'server/preflight'), { recursive: true })
  cpSync(join(ROOT, 'package.json'), join(root, 'package.json'))
  return root
}

it('says everything that is in the way at once: packages, data folder and a port that another program holds', async () => {
  const server = createServer((_request, response) => response.end('a printer'))
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  try {
    const { port } = server.address() as AddressInfo
    const file = join(folder, 'a-file')
    writeFileSync(file, '')
    const root = unpacked('bare')
    const { code, lines } = await start(root, 'server/main.ts', '--data', join(file, 'data'), '--port', String(port))
    expect(code).toBe(1)
    expect(lines).toEqual([
      `The packages of Duskrow are not installed. Run in ${root}: npm ci`,
      expect.stringMatching(/a-file.data cannot be written \(ENOTDIR\)\./),
      expect.stringMatching(`^Port ${port} is in use by another program\\.`),
    ])
  } finally {
    server.close()
  }
})

it('tells a missing database module from one that was not built', async () => {
  const root = unpacked('half (1)')
  const data = ['--data', join(folder, 'data')] as const
  mkdirSync(join(root, 'node_modules'))
  const missing = await start(root, 'server/restore.ts', ...data)
  expect(missing).toEqual({ code: 1, lines: [expect.stringMatching(/is missing.*npm ci$/)] })
  for (const name of ['better-sqlite3', 'bindings', 'file-uri-to-path']) {
    cpSync(join(ROOT, 'node_modules', name), join(root, 'node_modules', name), {
      recursive: true,
      filter: (path) => !/better-sqlite3.(build|deps|src)/.test(path),
    })
  }
  const unbuilt = await start(root, 'server/restore.ts', ...data)
  expect(unbuilt).toEqual({
    code: 1,
    lines: [expect.stringMatching(/not built.*npm rebuild better-sqlite3.*Brackets/)],
  })
})

it('starts what it was asked for, in a data folder that only its owner may read', async () => {
  const { code, lines } = await start(ROOT, 'server/restore.ts', '--list', '--data', join(folder, 'fresh/data'))
  expect({ code, lines }).toEqual({ code: 0, lines: [expect.stringMatching(/^Copies in /), '  none'] })
})

it.each([
  ['as one file beside the packages', true],
  ['file by file where nothing can be written beside them', false],
])('starts a TypeScript file %s, which knows where it lies itself', async (how, isWritable) => {
  const root = unpacked(how)
  const packages = join(root, 'node_modules')
  mkdirSync(packages)
  for (const name of readdirSync(join(ROOT, 'node_modules')).filter((each) => !each.startsWith('.'))) {
    symlinkSync(join(ROOT, 'node_modules', name), join(packages, name))
  }
  if (!isWritable) writeFileSync(join(packages, '.cache'), '')
  writeFileSync(join(root, 'server/beside.ts'), 'export const place: string = import.meta.dirname')
  const asks = "import { place } from './beside.ts'\nconsole.log(place, import.meta.url, process.argv.slice(2))"
  writeFileSync(join(root, 'server/restore.ts'), asks)
  const { code, lines } = await start(root, 'server/restore.ts', '--data', join(folder, 'data'))
  const url = pathToFileURL(join(root, 'server/restore.ts')).href
  expect({ code, lines }).toEqual({
    code: 0,
    lines: [expect.stringMatching(`^${join(root, 'server')} ${url} \\[ '--data'`)],
  })
  expect(existsSync(join(packages, '.cache/duskrow'))).toBe(isWritable)
  writeFileSync(join(root, 'server/beside.ts'), "export const place: string = 'elsewhere'")
  const changed = await start(root, 'server/restore.ts', '--data', join(folder, 'data'))
  expect(changed).toEqual({ code: 0, lines: [expect.stringMatching(/^elsewhere /)] })
})

it.each(readdirSync(PREFLIGHT))('%s can be read by Node 12', (name) => {
  const source = readFileSync(join(PREFLIGHT, name), 'utf8')
  const printed = (target: string) => transformSync(source, { target, format: 'esm' }).code
  expect(printed('node12.22')).toBe(printed('esnext'))
  expect(source).not.toMatch(/from 'node:|(?<!')import\.meta\.(dirname|filename)/)
})
