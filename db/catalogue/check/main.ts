import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import { csvRows } from '../csv.ts'
import { OUTREACH_NAMES, outreachOf, sourceCounts } from '../outreach.ts'
import { outreachFile } from '../outreach-file.ts'
import { checkedPairs, pairLine } from '../pairs.ts'
import { starNames, starRows } from '../rows.ts'
import { report } from './report.ts'

const files = OUTREACH_NAMES.map((name) => outreachFile(`${name}.csv`))
const objects = outreachOf(files)
const stars = starRows()
const explanations = csvRows('check/explained.csv').map(([key = '', what = '', why = '']) => ({ key, what, why }))

console.log('Values by source: published, from memory, computed, our judgement')
for (const file of files) {
  const counts = sourceCounts(outreachOf([file]))
  console.log(
    `  ${file.name.padEnd(24)}${Object.values(counts)
      .map((count) => String(count).padStart(6))
      .join('')}`,
  )
}

const pairs = checkedPairs(objects, stars)
console.log(`Doubles beside their two stars: ${pairs.length} (year, entered, computed)`)
for (const pair of pairs) console.log(`  ${pairLine(pair)}`)

const tables = process.argv.slice(2).map((path) => ({ name: basename(path), text: readFileSync(path, 'utf8') }))
const { lines, open } = report({ objects, names: starNames(), stars, explanations }, tables)
for (const line of lines) console.log(line)
const wrong = open + pairs.filter(({ isFine }) => !isFine).length
if (wrong > 0) {
  console.log(`${wrong} left to mend or to explain`)
  process.exitCode = 1
}
