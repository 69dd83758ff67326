import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build, type Plugin } from 'esbuild'

const ROOT = join(import.meta.dirname, '../..')

/** Each file still knows where it lies, since programs read other files from beside it. */
const whereItLies: Plugin = {
  name: 'where it lies',
  setup({ onLoad }) {
    onLoad({ filter: /\.ts$/ }, ({ path }) => ({
      loader: 'ts',
      contents: readFileSync(path, 'utf8')
        .replaceAll('import.meta.dirname', JSON.stringify(dirname(path)))
        .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href)),
    }))
  },
}

/** Where the bundle of a program lies: beside the installed packages, so that it finds those that cannot be bundled. */
export const bundlePath = (name: string): string =>
  join(ROOT, 'node_modules/.cache/duskrow', `${name}-${process.pid}.mjs`)

/** Bundles a program of the tests, so that each of many starts of it costs little. */
export async function bundleProgram(name: string): Promise<void> {
  await build({
    entryPoints: [join(import.meta.dirname, `${name}.ts`)],
    outfile: bundlePath(name),
    bundle: true,
    platform: 'node',
    format: 'esm',
    external: ['better-sqlite3', 'esbuild'],
    plugins: [whereItLies],
    logLevel: 'error',
  })
}
