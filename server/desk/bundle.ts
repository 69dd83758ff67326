import { join } from 'node:path'
import { build } from 'esbuild'

/** The worker and all it imports as one script, as `new Worker(code, { eval: true })` takes it. */
export async function bundleWorker(file = join(import.meta.dirname, 'worker.ts')): Promise<string> {
  const { outputFiles } = await build({
    entryPoints: [file],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'cjs',
    target: `node${process.versions.node.split('.')[0]}`,
    sourcemap: false,
    logLevel: 'error',
  })
  const code = outputFiles[0]?.text
  if (code === undefined) throw new Error(`Nothing came out of ${file}`)
  return code
}
