import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { basename, extname, join } from 'node:path'
import { build, transform } from 'esbuild'
import type { FastifyInstance } from 'fastify'
import { FONTS, type FontFile } from './fonts.ts'
import { bytesFor, type Packable, packable } from './packing.ts'

const ROOT = join(import.meta.dirname, '../..')
const YEAR_S = 31_536_000
const TYPES: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.woff2': 'font/woff2',
}

interface Asset extends Packable<Buffer> {
  readonly name: string
  /** `/assets/<name>.<digest>.<ext>`: a changed file has another address. */
  readonly path: string
  readonly type: string
}

export interface Assets {
  readonly all: readonly Asset[]
  /** The address of an asset by its name, such as `day.css` or `field.js`; throws for a name that is not there. */
  path(name: string): string
}

/** Makes all styles, browser scripts and fonts ready in memory; esbuild bundles and shrinks them. */
export async function loadAssets(views = join(ROOT, 'views'), fonts: readonly FontFile[] = FONTS): Promise<Assets> {
  const fontAssets = fonts.map((font) => asset(font.name, readFileSync(join(ROOT, 'node_modules', font.file))))
  const faces = fonts.map((font, index) => fontFace(font, fontAssets[index]?.path ?? '')).join('\n')
  const all = [
    ...fontAssets,
    await style('fonts.css', faces),
    ...(await styles(join(views, 'styles'))),
    ...(await scripts(join(views, 'scripts'))),
  ]
  const paths = new Map(all.map(({ name, path }) => [name, path]))
  return {
    all,
    path(name) {
      const path = paths.get(name)
      if (path === undefined) throw new Error(`No asset named ${name}`)
      return path
    },
  }
}

function asset(name: string, body: Buffer): Asset {
  const extension = extname(name)
  const digest = createHash('sha256').update(body).digest('hex').slice(0, 10)
  const path = `/assets/${basename(name, extension)}.${digest}${extension}`
  const bytes = extension === '.woff2' ? { body, packed: null } : packable(body)
  return { name, path, type: TYPES[extension] ?? 'application/octet-stream', ...bytes }
}

const fontFace = ({ family, weight, unicodeRange }: FontFile, path: string): string =>
  `@font-face{font-family:'${family}';font-weight:${weight};font-display:swap;src:url('${path}') format('woff2');unicode-range:${unicodeRange}}`

async function style(name: string, source: string): Promise<Asset> {
  const { code } = await transform(source, { loader: 'css', minify: true })
  return asset(name, Buffer.from(code))
}

function styles(folder: string): Promise<Asset[]> {
  const files = readdirSync(folder).filter((file) => file.endsWith('.css'))
  return Promise.all(files.map((file) => style(file, readFileSync(join(folder, file), 'utf8'))))
}

async function scripts(folder: string): Promise<Asset[]> {
  const files = readdirSync(folder).filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'))
  const { outputFiles } = await build({
    entryPoints: files.map((file) => join(folder, file)),
    outdir: '/',
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2020',
    charset: 'utf8',
    write: false,
    logLevel: 'silent',
  })
  return outputFiles.map(({ path, contents }) => asset(basename(path), Buffer.from(contents)))
}

/** Serves each asset at its exact address and nothing else; an address holds its digest, so it may be kept for a year. */
export function serveAssets(app: FastifyInstance, assets: Assets): void {
  for (const asset of assets.all) {
    app.get(asset.path, { config: { role: 'visitor', rateLimit: false } }, async (request, reply) => {
      reply.type(asset.type).header('cache-control', `public, max-age=${YEAR_S}`)
      return reply.send(bytesFor(request, reply, asset))
    })
  }
}
