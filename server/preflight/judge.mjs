import { sharedBy } from './folder.mjs'
import { programProblems } from './modules.mjs'

const MB = 1e6
const LEAST_FREE_MB = 50
const SCARCE_MB = 200
/** The year of this release; a clock before it is wrong. */
const RELEASE_YEAR = 2026

/**
 * @typedef {object} FolderFacts
 * @property {string} path
 * @property {string | null} error The system's code when nothing can be written there.
 * @property {number | null} freeBytes Null where it cannot be told.
 * @property {number | null} fileSystem The number of its file system on Linux, null elsewhere.
 *
 * @typedef {object} PortFacts
 * @property {number} port
 * @property {string | null} error The system's code when nobody can listen on it.
 * @property {'evening' | 'rehearsal' | null} ours What a Duskrow that answers there is doing; null when none does.
 *
 * @typedef {import('./modules.mjs').ProgramFacts & {
 *   command: string, keepsData: boolean, platform: string, year: number, folder: FolderFacts, port: PortFacts | null,
 * }} Facts `command` is how it was started, such as `npm start`; `keepsData` is false for the demo; `port` is null where none is asked for.
 *
 * @typedef {object} Verdict
 * @property {readonly string[]} problems What keeps it from starting, each with its remedy.
 * @property {readonly string[]} warnings
 * @property {string | null} openAt Where it is open already, in a sentence, when nothing else is wrong.
 */

/**
 * Decides whether it can start here, and says everything that is in the way at once.
 * @param {Facts} facts
 * @returns {Verdict}
 */
export function judge(facts) {
  const { port } = facts
  const problems = [...programProblems(facts), ...folderProblems(facts)]
  const isOpen = port !== null && port.error !== null && port.ours === 'evening'
  if (isOpen && facts.keepsData && problems.length === 0) return { problems, warnings: [], openAt: openSentence(port) }
  if (port !== null && port.error !== null) problems.push(portProblem(port, facts))
  return { problems, warnings: warningsOf(facts), openAt: null }
}

/** @param {PortFacts} port */
const openSentence = ({ port }) =>
  `Duskrow is open already at http://127.0.0.1:${port}. To start it differently, stop that one first (Ctrl+C in its window).`

/**
 * @param {Facts} facts
 * @returns {string[]}
 */
function folderProblems({ folder, keepsData, command }) {
  const other = keepsData ? `Choose another: ${command} -- --data DIR` : 'Name another in the environment as TMPDIR.'
  const name = keepsData ? 'data folder' : 'folder for passing files'
  if (folder.error !== null) return [`The ${name} ${folder.path} cannot be written (${folder.error}). ${other}`]
  if (folder.freeBytes === null || folder.freeBytes >= LEAST_FREE_MB * MB) return []
  const freeMb = Math.floor(folder.freeBytes / MB)
  return [
    `Only ${freeMb} MB are free where the ${name} ${folder.path} lies, and ${LEAST_FREE_MB} MB are the least. Make room. ${other}`,
  ]
}

/**
 * @param {PortFacts} facts
 * @param {Facts} facts
 */
function portProblem({ port, error, ours }, { command, platform }) {
  const other = `${command} -- --port ${port < 65535 ? port + 1 : port - 1}`
  if (ours !== null) {
    const which = ours === 'evening' ? 'is open already' : 'only rehearses, such as the demo'
    return `Port ${port} is in use by a Duskrow that ${which}. Stop it, or choose another: ${other}`
  }
  if (error === 'EADDRINUSE') {
    return `Port ${port} is in use by another program. Stop it (who it is: ${whoHolds(port, platform)}), or choose another: ${other}`
  }
  return `Port ${port} may not be used here (${error}). Choose another, above 1023: ${command} -- --port 8080`
}

/**
 * @param {number} port
 * @param {string} platform
 */
function whoHolds(port, platform) {
  if (platform === 'win32') return `netstat -ano | findstr :${port}`
  return platform === 'darwin' ? `lsof -nP -iTCP:${port} -sTCP:LISTEN` : `ss -ltnp sport = :${port}`
}

/**
 * @param {Facts} facts
 * @returns {string[]}
 */
function warningsOf({ folder, keepsData, year, command, nodeVersion }) {
  const warnings = []
  if (/^v2[4-9]\./.test(nodeVersion)) {
    warnings.push(
      `Under Node ${nodeVersion} the database module may end the program at any time. Install Node 22 from nodejs.org, then run: npm ci`,
    )
  }
  const free = folder.freeBytes
  if (free !== null && free >= LEAST_FREE_MB * MB && free < SCARCE_MB * MB) {
    warnings.push(`Only ${Math.floor(free / MB)} MB are free where ${folder.path} lies. Make room before the night.`)
  }
  const shared = keepsData ? sharedBy(folder.path, folder.fileSystem) : null
  if (shared !== null) {
    const where = shared === 'cloud' ? 'in a folder that a cloud service keeps in step' : 'on a network drive'
    warnings.push(
      `The data folder ${folder.path} lies ${where}, where the database can be damaged. Choose one of this laptop alone: ${command} -- --data DIR`,
    )
  }
  if (year < RELEASE_YEAR) {
    warnings.push(`The clock of this laptop says the year ${year}, and every time here goes by it. Set it first.`)
  }
  return warnings
}
