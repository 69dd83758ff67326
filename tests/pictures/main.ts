import { join } from 'node:path'
import { pictureOptions } from './options.ts'
import { pageNames, takePage } from './pages.ts'
import { canDrawPaper, paperNames, takePaper } from './papers.ts'
import { README_FOLDER, takePrints, takeShots, tooHeavy } from './readme.ts'
import { openStudio, type Studio } from './studio.ts'

const FOLDER = join(import.meta.dirname, '../../pictures')
const NO_POPPLER =
  'No papers: the program pdftoppm is missing. On Debian and its relatives: apt-get install poppler-utils'

const { lang, only, isForReadme } = pictureOptions(process.argv.slice(2))
const hasPaper = canDrawPaper()
if (!hasPaper) console.log(NO_POPPLER)
const studio = await openStudio(lang, isForReadme ? README_FOLDER : join(FOLDER, lang))
try {
  const files = isForReadme ? await forReadme(studio) : await everything(studio)
  console.log(`${files.length} pictures in ${studio.folder}`)
} finally {
  await studio.close()
}

async function forReadme(at: Studio): Promise<readonly string[]> {
  const files = [...(await takeShots(at)), ...(hasPaper ? await takePrints(at) : [])]
  for (const file of tooHeavy(files)) {
    console.error(`${file} is heavier than the README should carry.`)
    process.exitCode = 1
  }
  return files
}

async function everything(at: Studio): Promise<readonly string[]> {
  const files: string[] = []
  const isAsked = (name: string): boolean => name.includes(only)
  for (const name of pageNames().filter(isAsked)) files.push(...(await takePage(at, name)))
  if (!hasPaper) return files
  for (const name of paperNames().filter(isAsked)) files.push(...(await takePaper(at, name)))
  return files
}
