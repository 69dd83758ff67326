/**
 * What the start of Node, its packages and the database module has shown.
 * @typedef {object} ProgramFacts
 * @property {string} nodeVersion As Node says it: `v22.12.0`.
 * @property {string} engines The range that package.json asks for: `>=20.19 <27`.
 * @property {string} root The folder of the program.
 * @property {boolean} hasPackages Whether `node_modules` is there.
 * @property {string | null} databaseError What the database module said when it was tried; null when it works or was not tried.
 */

/**
 * One sentence with its remedy for each thing that keeps the program itself from starting.
 * @param {ProgramFacts} facts
 * @returns {string[]}
 */
export function programProblems(facts) {
  const problems = []
  const node = nodeProblem(facts.nodeVersion, facts.engines)
  if (node !== null) problems.push(node)
  if (!facts.hasPackages) problems.push(`The packages of Duskrow are not installed. Run in ${facts.root}: npm ci`)
  else if (facts.databaseError !== null) problems.push(databaseProblem(facts.databaseError, facts.root))
  return problems
}

/**
 * @param {string} version
 * @param {string} engines
 * @returns {string | null}
 */
export function nodeProblem(version, engines) {
  const range = /^>=(\d+)\.(\d+) <(\d+)$/.exec(engines)
  if (range === null) throw new Error(`The range of Node versions cannot be read: ${engines}`)
  const [leastMajor = 0, leastMinor = 0, below = 0] = range.slice(1).map(Number)
  const [major = 0, minor = 0] = version.replace(/^v/, '').split('.').map(Number)
  const isOld = major < leastMajor || (major === leastMajor && minor < leastMinor)
  if (!isOld && major < below) return null
  const fault = isOld ? 'too old' : 'too new'
  return `Node ${version} is ${fault}: Duskrow needs ${leastMajor}.${leastMinor} or later, below ${below}. Install Node 22 from nodejs.org, then run: npm ci`
}

/** What may stand in a path without a build being upset: brackets and accents make it fail. */
const PLAIN_PATH = /^[A-Za-z0-9 _.\\/:-]*$/

/**
 * @param {string} message
 * @param {string} root
 */
function databaseProblem(message, root) {
  if (/Cannot find (module|package)/.test(message)) {
    return `A package of Duskrow is missing, the one for its database. Run in ${root}: npm ci`
  }
  const rebuild = `Run in ${root}: npm rebuild better-sqlite3`
  if (/NODE_MODULE_VERSION|different Node\.js version/.test(message)) {
    return `The database module was built for another version of Node than this one. ${rebuild}`
  }
  if (/bindings file/.test(message)) {
    return `The database module was not built when it was installed. ${rebuild} (npm 12 may first ask for: npm install-scripts approve better-sqlite3).${pathCause(root)}`
  }
  return `The database module cannot be used: ${message.split('\n')[0]}. ${rebuild}${pathCause(root)}`
}

/** @param {string} root */
const pathCause = (root) =>
  PLAIN_PATH.test(root)
    ? ''
    : ' Brackets, accents or other unusual letters in the name of the folder are a likely cause: move it to a plain name first.'
