import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { OBJECT_KINDS } from '../../server/tours/target.ts'
import { readWordTables } from '../../server/web/language.ts'

const ROOT = join(import.meta.dirname, '../..')
const english = readWordTables().en ?? {}
const keys = Object.keys(english)
const groups = [...new Set(keys.map((key) => key.split('.')[0]))].join('|')

const source = ['server', 'seed-demo', 'db']
  .flatMap((folder) => readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true }))
  .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
  .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'utf8'))
  .join('\n')

const found = (pattern: RegExp): string[] => [...new Set([...source.matchAll(pattern)].map(([, text = '']) => text))]

const literals = found(new RegExp(`'((?:${groups})\\.[\\w.-]+)'`, 'g')).filter(
  (text) => !/\.(js|css|ts|hbs)$/.test(text),
)
/** Codes with a gap, as patterns: `fault.no-${what}`. */
const templates = found(new RegExp(`\`((?:${groups})\\.[^\`\\s]*\\$\\{[^\`]*)\``, 'g')).map(
  (text) =>
    new RegExp(
      `^${text
        .replace(/\$\{(?:[^{}]|\{[^}]*\})*\}/g, '\u0000')
        .replaceAll('.', '\\.')
        .replaceAll('\u0000', '[\\w-]+')}$`,
    ),
)
/** Keys whose group itself is handed on: `options(words, 'mount', [...])`. */
const handedOn = /^(mount|design|reach)\./

describe('the English sentences', () => {
  it('has a sentence for every code that is written out in the service', () => {
    expect(literals.length).toBeGreaterThan(200)
    expect(literals.filter((code) => !keys.includes(code))).toEqual([])
  })

  it('has at least one sentence for every code that is put together', () => {
    expect(templates.length).toBeGreaterThan(20)
    expect(templates.filter((template) => !keys.some((key) => template.test(key)))).toEqual([])
  })

  it('names everything that can be missing', () => {
    const things = found(/notFound\('([\w-]+)'\)/g)
    expect(things).toContain('night')
    expect(things.filter((thing) => !keys.includes(`fault.no-${thing}`))).toEqual([])
  })

  it('has a word for every cause of leaving', () => {
    const union = /interface Cause \{\s*readonly code: ([^\n]+)/.exec(source)?.[1] ?? ''
    const causes = [...union.matchAll(/'([\w-]+)'/g)].map(([, cause = '']) => cause)
    expect(causes).toContain('skyline')
    expect(causes.filter((cause) => !keys.includes(`cause.${cause}`))).toEqual([])
  })

  it('has a word and a plain sentence for every kind of thing', () => {
    const missing = OBJECT_KINDS.filter((kind) => !(`kind.${kind}` in english && `card.about-${kind}` in english))
    expect(missing).toEqual([])
  })

  it('names all 88 constellations', () => {
    expect(keys.filter((key) => key.startsWith('constellation.'))).toHaveLength(88)
  })

  it('holds no sentence that nothing says', () => {
    const isSaid = (key: string) =>
      literals.includes(key) ||
      literals.includes(key.replace(/-hint$/, '')) ||
      handedOn.test(key) ||
      templates.some((template) => template.test(key))
    expect(keys.filter((key) => !isSaid(key))).toEqual([])
  })

  it('is written in upright letters, without markup', () => {
    const sentences = Object.values(english).flatMap((message) =>
      typeof message === 'string' ? [message] : Object.values(message),
    )
    expect(sentences.filter((sentence) => /[<>]|\*\*|__/.test(sentence))).toEqual([])
    expect(sentences.filter((sentence) => sentence.trim() === '')).toEqual([])
  })
})
