import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { checksums, HAND_TABLES, makeCatalogue } from '../../db/catalogue/make.ts'

const read = (name: string): string => readFileSync(new URL(`../../db/catalogue/${name}`, import.meta.url), 'utf8')

const made = makeCatalogue()

it('makes from the packages exactly the tables that are kept', () => {
  expect([...made.keys()]).toEqual(['boundaries.csv', 'designations.csv', 'lines.csv', 'places.csv', 'stars.csv'])
  for (const [name, text] of made) expect(text === read(name), name).toBe(true)
})

it('keeps the SHA-256 of every table, made or written by hand', () => {
  const names = [...made.keys(), ...HAND_TABLES]
  expect(read('checksums.txt')).toBe(checksums(new Map(names.map((name) => [name, read(name)]))))
})

it('has another checksum when one letter differs', () => {
  expect(checksums(new Map([['a.csv', 'x']]))).not.toBe(checksums(new Map([['a.csv', 'y']])))
})
