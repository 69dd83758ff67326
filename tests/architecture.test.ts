import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { expect, it } from 'vitest'

const root = join(import.meta.dirname, '..')

/** Lowest first. A file may import from its own floor and from those before it, never from one after. */
const FLOORS = [
  'server/preflight',
  'server/errors',
  'server/clock',
  'server/memory',
  'server/words',
  'server/sky',
  'server/sight',
  'server/tours',
  'server/drawings',
  'db',
  'server/desk',
  'server/config',
  'server/web',
  'server/app',
  'server/restore',
  'server/main',
  'seed-demo',
]

/** The outside packages that a floor may use; a floor that is not named here may use any. */
const PACKAGES: Readonly<Record<string, RegExp>> = {
  'server/preflight': /^(crypto|esbuild|fs|http|module|net|os|path|url|tsx\/esm\/api)$/,
  'server/errors': /^$/,
  'server/clock': /^$/,
  'server/memory': /^node:(v8|vm)$/,
  'server/words': /^$/,
  'server/sky': /^(astronomy-engine|magvar)$/,
  'server/sight': /^$/,
  'server/tours': /^(luxon|typebox(\/.*)?)$/,
  'server/drawings': /^qr$/,
}

const PURE = /^server\/(sky|sight|tours|drawings|words)\//
/** Words that read a clock or chance, or reach the machine: a pure floor is given its instants and its seed. */
const IMPURE = /Date\.now|new Date\(\)|DateTime\.now|performance\.|Math\.random|from 'node:/

const files = sourceFiles()

it('knows the floor of every source file', () => {
  expect(files.length).toBeGreaterThan(40)
  for (const file of files) expect(FLOORS).toContain(floorOf(file))
})

it.each(files)('%s imports only downwards, and only the packages of its floor', (file) => {
  for (const target of importsOf(file)) {
    if (!target.startsWith('.')) expect(target).toMatch(PACKAGES[floorOf(file)] ?? /./)
    else expect(rank(join(dirname(file), target)), `${file} -> ${target}`).toBeLessThanOrEqual(rank(file))
  }
})

it.each(files.filter((file) => PURE.test(file)))('%s reads no clock, no chance and no machine', (file) => {
  expect(readFileSync(join(root, file), 'utf8')).not.toMatch(IMPURE)
})

it('keeps the web server out of the database floor, and SQL out of the web floor', () => {
  for (const file of files.filter((name) => name.startsWith('db/')))
    expect(importsOf(file).join()).not.toMatch(/fastify/)
  for (const file of files.filter((name) => name.startsWith('server/web/'))) {
    expect(readFileSync(join(root, file), 'utf8'), file).not.toMatch(/\.prepare\(|better-sqlite3/)
    expect(
      importsOf(file).filter((target) => /(^|\/)db\//.test(target)),
      file,
    ).toEqual([])
  }
})

it('has the agreed folders at the top and no others', () => {
  const unkept = readFileSync(join(root, '.gitignore'), 'utf8')
    .split('\n')
    .map((line) => line.replace(/^\//, ''))
  const folders = readdirSync(root, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.') && !unkept.includes(`${entry.name}/`))
    .map((entry) => entry.name)
  expect(folders.sort()).toEqual(['db', 'seed-demo', 'server', 'tests', 'views'])
})

it('prints markup as it is in two templates only: the layout, and drawings, whose text is escaped where it is made', () => {
  const templates = readdirSync(join(root, 'views'), { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.hbs'),
  )
  const unescaped = templates.filter((name) => /\{\{\{|\{\{&/.test(readFileSync(join(root, 'views', name), 'utf8')))
  expect(unescaped.sort()).toEqual(['layout.hbs', 'partials/drawing.hbs'])
  const makers = files.filter((file) => /\bas Svg\b/.test(readFileSync(join(root, file), 'utf8')))
  expect(makers).toEqual(['server/drawings/svg.ts'])
})

function sourceFiles(): string[] {
  return ['server', 'db', 'seed-demo']
    .filter((folder) => existsSync(join(root, folder)))
    .flatMap((folder) => readdirSync(join(root, folder), { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile() && /\.(ts|mjs)$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
}

function importsOf(file: string): string[] {
  const text = readFileSync(join(root, file), 'utf8')
  return [...text.matchAll(/(?:from|import)\s*\(?'([^']+)'/g)].map(([, target = '']) => target)
}

function floorOf(file: string): string {
  const floor = FLOORS.find((prefix) => file.startsWith(`${prefix}/`) || file === `${prefix}.ts`)
  if (!floor) throw new Error(`${file} belongs to no floor`)
  return floor
}

function rank(file: string): number {
  return FLOORS.indexOf(floorOf(file))
}
