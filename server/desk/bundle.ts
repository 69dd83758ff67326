import { createRequire } from 'node:module'
import { join } from 'node:path'
import { build } from 'esbuild'

let bundled: Promise<string> | undefined
let bundledForCopies: Promise<string> | undefined

/** The worker and all it imports as one script, as `new Worker(code, { eval: true })` takes it; bundled once a process. */
export function bundleWorker(): Promise<string> {
  bundled ??= bundle(join(import.meta.dirname, 'worker.ts'))
  return bundled
}

/** The thread for copies as one script, but for the database driver, which cannot be taken in and is read from where it lies. */
export function bundleCopyWorker(): Promise<string> {
  bundledForCopies ??= bundle(join(import.meta.dirname, 'copy-worker.ts'), {
    'better-sqlite3': createRequire(import.meta.url).resolve('better-sqlite3'),
  })
  return bundledForCopies
}

async function bundle(file: string, installed: Readonly<Record<string, string>> = {}): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [file],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'cjs',
    target: `node${process.versions.node.split('.')[0]}`,
    sourcemap: false,
    logLevel: 'error',
    alias: { ...installed },
    external: Object.values(installed),
  })
  const code = outputFiles[0]?.text
  if (code === undefined) throw new Error(`Nothing came out of ${file}`)
  return code
}
