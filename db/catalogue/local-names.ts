import { existsSync } from 'node:fs'
import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { ShowObject } from '../../server/tours/target.ts'
import { type OutreachFile, outreachFile, readRows } from './outreach-file.ts'
import { sourceClass } from './outreach-sources.ts'

const text = Type.String({ minLength: 2, maxLength: 240, pattern: '^\\S(.*\\S)?$' })
const NameRow = Type.Object(
  { name: text, called: text, source: Type.String({ minLength: 1 }) },
  { additionalProperties: false },
)

/** What a language calls a thing in the sky, or says in place of a short text of the catalogue. */
export type LocalName = Static<typeof NameRow>

/**
 * Every name of a language (its code, `de`) that ships, of a thing on the list or a feature of one; [] for a language
 * without any. Throws an Error that names file and line for the first row that does not hold.
 */
export const readLocalNames = (language: string, outreach: readonly ShowObject[]): readonly LocalName[] =>
  readLocal(`names.${language}.csv`, namesOn(outreach))

/** The same for what the list says of things in short: why they are worth a look, what is special, what there is on the Moon, colours, sources. */
export const readLocalTexts = (language: string, outreach: readonly ShowObject[]): readonly LocalName[] =>
  readLocal(`texts.${language}.csv`, textsOn(outreach))

const readLocal = (file: string, known: ReadonlySet<string>): readonly LocalName[] =>
  existsSync(new URL(`./outreach/${file}`, import.meta.url)) ? localNamesOf(outreachFile(file), known) : []

/** The rows of one file in its order, each for one of these; throws as `readLocalNames` does. */
export function localNamesOf(file: OutreachFile, known: ReadonlySet<string>): readonly LocalName[] {
  const seen = new Set<string>()
  return readRows(file, (cells) => {
    if (!Value.Check(NameRow, cells)) {
      const [error] = Value.Errors(NameRow, cells)
      throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${error?.message}`)
    }
    if (!known.has(cells.name)) throw new Error(`"${cells.name}" is nowhere on the list`)
    if (seen.has(cells.name)) throw new Error(`"${cells.name}" is there already`)
    if (sourceClass(cells.source) === null) throw new Error(`source "${cells.source}" is not one this list knows`)
    seen.add(cells.name)
    return cells
  })
}

/** What things on a list and their features are called, by all their names. */
const namesOn = (outreach: readonly ShowObject[]): ReadonlySet<string> =>
  new Set(
    outreach.flatMap(({ name, designations, features }) => [
      name,
      ...designations,
      ...features.map((feature) => feature.name),
    ]),
  )

const textsOn = (outreach: readonly ShowObject[]): ReadonlySet<string> =>
  new Set(
    outreach.flatMap(({ appealReason, note, features, colours, sources }) => [
      appealReason,
      ...(note === null ? [] : [note]),
      ...features.map(({ see }) => see),
      ...(colours ?? []),
      ...Object.values(sources),
    ]),
  )
