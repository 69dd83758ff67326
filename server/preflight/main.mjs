import { join } from 'path'
import { fileURLToPath, pathToFileURL } from 'url'
import { gather } from './facts.mjs'
import { judge } from './judge.mjs'
import { oneFile } from './one-file.mjs'

// Plain words before anything else is loaded. It must be readable to old versions of Node, so that they can be told of:
// no packages, no TypeScript, nothing newer than Node 12 knows.

/**
 * Starts a TypeScript file of the program in this process, as if Node had been given it.
 * @param {string} target
 * @param {readonly string[]} args
 */
async function start(target, args) {
  const root = fileURLToPath(new URL('../..', import.meta.url))
  const path = join(root, target)
  process.argv.splice(1, process.argv.length, path, ...args)
  const made = await oneFile(path, root).catch(() => null)
  if (made === null) await readByFile()
  else process.setSourceMapsEnabled(true)
  await import(pathToFileURL(made === null ? path : made).href)
}

/** Where nothing can be written beside the packages, TypeScript is read as it comes, which takes longer. */
async function readByFile() {
  const { register } = await import('tsx/esm/api')
  register()
}

/**
 * Says what is in the way and ends, or starts what was asked for.
 * @param {string} target
 * @param {readonly string[]} args
 */
async function checkAndStart(target, args) {
  const { problems, warnings, openAt } = judge(await gather(target, args))
  for (const sentence of [...warnings, ...problems]) console.error(sentence)
  if (problems.length > 0) {
    process.exitCode = 1
    return
  }
  if (openAt !== null) console.log(openAt)
  else await start(target, args)
}

const [target = '', ...args] = process.argv.slice(2)
checkAndStart(target, args).catch((error) => {
  console.error(error)
  process.exitCode = 1
})
