import fs from 'fs'
import http from 'http'
import { createRequire } from 'module'
import net from 'net'
import { tmpdir } from 'os'
import { dirname, join, resolve } from 'path'
import { fileURLToPath } from 'url'
import { chosenFolder } from './folder.mjs'
import { nodeProblem } from './modules.mjs'

const ROOT = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '')
const DEFAULT_PORT = 8080
const LONGEST_ANSWER_MS = 1500

/** What each thing that can be started is called, and what it asks of the laptop. */
const STARTS = {
  'server/main.ts': { command: 'npm start', keepsData: true, listens: true },
  'seed-demo/main.ts': { command: 'npm run demo', keepsData: false, listens: true },
  'server/restore.ts': { command: 'npm run restore', keepsData: true, listens: false },
}

/**
 * Looks at everything that a start needs, and changes nothing but to make the data folder.
 * @param {string} target The file to be started, from the folder of the program.
 * @param {readonly string[]} args
 * @returns {Promise<import('./judge.mjs').Facts>}
 */
export async function gather(target, args) {
  const start = STARTS[/** @type {keyof typeof STARTS} */ (target)]
  if (start === undefined) throw new Error(`Nothing to start: ${target}`)
  const { command, keepsData, listens } = start
  const chosen = chosenFolder(flagOf(args, '--data'), process.env, process.platform)
  return {
    ...programFacts(),
    command,
    keepsData,
    platform: process.platform,
    year: new Date().getFullYear(),
    folder: folderFacts(keepsData ? resolve(chosen) : tmpdir()),
    port: listens ? await portFacts(args) : null,
  }
}

/** @returns {import('./modules.mjs').ProgramFacts} */
function programFacts() {
  const nodeVersion = process.version
  const engines = JSON.parse(fs.readFileSync(join(ROOT, 'package.json'), 'utf8')).engines.node
  const hasPackages = fs.existsSync(join(ROOT, 'node_modules'))
  // A module that was built for another Node may end the process instead of throwing.
  const isTried = hasPackages && nodeProblem(nodeVersion, engines) === null
  return { nodeVersion, engines, root: ROOT, hasPackages, databaseError: isTried ? tryDatabase() : null }
}

function tryDatabase() {
  try {
    const Database = createRequire(import.meta.url)('better-sqlite3')
    new Database(':memory:').close()
    return null
  } catch (error) {
    return error instanceof Error ? error.message : String(error)
  }
}

/**
 * @param {string} path
 * @returns {import('./judge.mjs').FolderFacts}
 */
function folderFacts(path) {
  let error = null
  try {
    fs.mkdirSync(path, { recursive: true, mode: 0o700 })
    fs.rmdirSync(fs.mkdtempSync(join(path, 'try-')))
  } catch (caught) {
    error = codeOf(caught)
  }
  return { path, error, ...spaceAt(path) }
}

/**
 * Of the folder, or where it is not there, of the nearest one above that is.
 * @param {string} path
 * @returns {{ freeBytes: number | null, fileSystem: number | null }}
 */
function spaceAt(path) {
  const unknown = { freeBytes: null, fileSystem: null }
  if (fs.statfsSync === undefined) return unknown
  try {
    const { bavail, bsize, type } = fs.statfsSync(path)
    return { freeBytes: bavail * bsize, fileSystem: process.platform === 'linux' ? type : null }
  } catch (error) {
    return codeOf(error) === 'ENOENT' && dirname(path) !== path ? spaceAt(dirname(path)) : unknown
  }
}

/**
 * Null where no port is asked for, or one that the service itself will refuse in a sentence.
 * @param {readonly string[]} args
 * @returns {Promise<import('./judge.mjs').PortFacts | null>}
 */
async function portFacts(args) {
  const text = flagOf(args, '--port')
  const port = text === null ? DEFAULT_PORT : Number(text)
  if (!Number.isInteger(port) || port < 1 || port > 65535) return null
  const error = await listenOnce(port, args.includes('--lan') ? '0.0.0.0' : '127.0.0.1')
  return { port, error, ours: error === 'EADDRINUSE' ? await serviceAt(port) : null }
}

/**
 * @param {number} port
 * @param {string} host
 * @returns {Promise<string | null>} The code of what went wrong.
 */
function listenOnce(port, host) {
  return new Promise((done) => {
    const server = net.createServer()
    server.once('error', (error) => done(codeOf(error)))
    server.listen({ port, host, exclusive: true }, () => server.close(() => done(null)))
  })
}

/**
 * @param {number} port
 * @returns {Promise<'evening' | 'rehearsal' | null>}
 */
function serviceAt(port) {
  return new Promise((done) => {
    const timer = setTimeout(() => request.destroy(), LONGEST_ANSWER_MS)
    const request = http.get({ host: '127.0.0.1', port, path: '/api/health', agent: false }, (response) => {
      let text = ''
      response.on('data', (part) => {
        text += part
        if (text.length > 100000) response.destroy()
      })
      response.on('close', () => {
        clearTimeout(timer)
        done(serviceOf(text))
      })
    })
    request.on('error', () => {
      clearTimeout(timer)
      done(null)
    })
  })
}

/**
 * Tells by an answer about health what a service of our own is doing; null for an answer of anything else.
 * @param {string} text
 * @returns {'evening' | 'rehearsal' | null}
 */
export function serviceOf(text) {
  try {
    const { isRehearsal, clockSpeed, sqlite } = JSON.parse(text)
    if (typeof isRehearsal !== 'boolean' || typeof clockSpeed !== 'number' || sqlite === undefined) return null
    return isRehearsal ? 'rehearsal' : 'evening'
  } catch (_error) {
    return null
  }
}

/**
 * The value of a flag, written `--flag value` or `--flag=value`; the last one counts.
 * @param {readonly string[]} args
 * @param {string} flag
 * @returns {string | null}
 */
export function flagOf(args, flag) {
  let value = null
  args.forEach((arg, i) => {
    if (arg === flag && i + 1 < args.length) value = args[i + 1]
    if (arg.startsWith(`${flag}=`)) value = arg.slice(flag.length + 1)
  })
  return value
}

/** @param {unknown} error */
const codeOf = (error) => (error instanceof Error && 'code' in error ? String(error.code) : String(error))
