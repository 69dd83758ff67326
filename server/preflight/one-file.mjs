import { createHash } from 'crypto'
import fs from 'fs'
import { dirname, join, relative } from 'path'
import { fileURLToPath, pathToFileURL } from 'url'

const MADE_OF = '\n//made of '

/**
 * Makes one file of a TypeScript file of the program and of all that it imports but the packages, unless there is one
 * already, and answers where it lies: to find and read hundreds of files one by one takes most of a start, while people
 * wait for the service.
 * @param {string} path
 * @param {string} root The folder of the program.
 * @returns {Promise<string>}
 */
export async function oneFile(path, root) {
  const outfile = join(root, 'node_modules/.cache/duskrow', nameOf(path, root))
  if (isFresh(outfile)) return outfile
  const self = fileURLToPath(import.meta.url)
  const sources = new Map([[self, stateOf(self)]])
  const { build } = await import('esbuild')
  const { outputFiles } = await build({
    entryPoints: [path],
    bundle: true,
    write: false,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    sourcemap: 'inline',
    sourcesContent: false,
    outfile,
    define: { 'import.meta.dirname': 'ownFolder', 'import.meta.url': 'ownUrl' },
    plugins: [{ name: 'own place', setup: (building) => keepPlaces(building, sources) }],
    logLevel: 'error',
  })
  for (const { text } of outputFiles) await put(`${text}${MADE_OF}${JSON.stringify([...sources])}`, outfile)
  return outfile
}

/**
 * Another copy of the program may share the packages.
 * @param {string} path
 * @param {string} root
 */
function nameOf(path, root) {
  const copy = createHash('sha256').update(root).digest('hex').slice(0, 8)
  return `${relative(root, path).replace(/\W+/g, '-')}-${copy}.mjs`
}

/**
 * True for a file whose sources are all as they were when it was made of them.
 * @param {string} outfile
 */
function isFresh(outfile) {
  try {
    const made = fs.readFileSync(outfile, 'utf8')
    /** @type {[string, string][]} */
    const sources = JSON.parse(made.slice(made.lastIndexOf(MADE_OF) + MADE_OF.length))
    return sources.every(([path, state]) => stateOf(path) === state)
  } catch (_none) {
    return false
  }
}

/**
 * What changes when a file is written.
 * @param {string} path
 */
function stateOf(path) {
  const { mtimeMs, ctimeMs, size } = fs.statSync(path)
  return `${mtimeMs} ${ctimeMs} ${size}`
}

/**
 * Lets each file know where it lay itself, since it reads what lies beside it, and notes its state before it is read.
 * @param {import('esbuild').PluginBuild} build
 * @param {Map<string, string>} sources
 */
function keepPlaces(build, sources) {
  build.onLoad({ filter: /\.m?[jt]s$/ }, async ({ path }) => {
    sources.set(path, stateOf(path))
    const [folder, url] = [dirname(path), pathToFileURL(path).href].map((place) => JSON.stringify(place))
    const source = await fs.promises.readFile(path, 'utf8')
    return { contents: `const ownFolder = ${folder}, ownUrl = ${url}; ${source}`, loader: 'ts' }
  })
}

/**
 * Puts it in its place in one step, so that programs which start at the same moment cannot mix theirs.
 * @param {string} code
 * @param {string} place
 */
async function put(code, place) {
  await fs.promises.mkdir(dirname(place), { recursive: true })
  const half = `${place}-${process.pid}`
  await fs.promises.writeFile(half, code)
  await fs.promises.rename(half, place)
}
