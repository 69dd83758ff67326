import { join } from 'path'
import { fileURLToPath, pathToFileURL } from 'url'
import { gather } from './facts.mjs'
import { judge } from './judge.mjs'

// Plain words before anything else is loaded. It must be readable to old versions of Node, so that they can be told of:
// no packages, no TypeScript, nothing newer than Node 12 knows.

/**
 * Starts a TypeScript file of the program in this process, as if Node had been given it.
 * @param {string} target
 * @param {readonly string[]} args
 */
async function start(target, args) {
  const path = join(fileURLToPath(new URL('../..', import.meta.url)), target)
  process.argv.splice(1, process.argv.length, path, ...args)
  const { register } = await import('tsx/esm/api')
  register()
  await import(pathToFileURL(path).href)
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
