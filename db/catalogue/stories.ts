import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Story } from '../../server/tours/target.ts'
import { type OutreachFile, readOutreach } from './outreach.ts'
import { sourceClass } from './outreach-sources.ts'

/** What is said of a thing, part by part: the first five are said at the telescope, in this order. */
export const STORY_PARTS = ['see', 'lookFor', 'how', 'compare', 'answer', 'children', 'more'] as const

const TRADE = 'common practice, no source'
const sentences = (maxLength: number) => Type.String({ minLength: 8, maxLength, pattern: '^\\S.*[.?!]$' })
const StoryRow = Type.Object(
  {
    key: Type.String({ pattern: '^[a-z][a-z0-9]*(-[a-z0-9]+)*$', maxLength: 40 }),
    see: sentences(180),
    lookFor: sentences(180),
    how: sentences(180),
    compare: sentences(180),
    answer: sentences(180),
    children: sentences(240),
    more: sentences(400),
    sources: Type.String({ minLength: 1 }),
  },
  { additionalProperties: false },
)
type StoryRow = Static<typeof StoryRow>

/**
 * Every story that ships in a language (its code, `en`), checked; a language without a file is an error of the file system.
 * Throws an Error that names file and line for the first row that does not hold, or that tells of nothing on the outreach list.
 */
export function readStories(language: string): readonly Story[] {
  const name = `stories.${language}.csv`
  const text = readFileSync(new URL(`./outreach/${name}`, import.meta.url), 'utf8')
  return storiesOf({ name, text }, language, new Set(readOutreach().map(({ key }) => key)))
}

/** The stories of one file in its order, each of one of these keys; throws an Error that names file and line for the first row that does not hold. */
export function storiesOf({ name, text }: OutreachFile, language: string, keys: ReadonlySet<string>): readonly Story[] {
  const [header = [], ...rows]: string[][] = inPlace(name, () => parse(text))
  const owners = new Map<string, string>()
  return rows.map((cells, index) => {
    const where = `${name} line ${index + 2}`
    const named = Object.fromEntries(header.map((column, i) => [column, cells[i] ?? '']))
    return inPlace(where, () => {
      const story = storyOfCells(named, language)
      if (!keys.has(story.key)) throw new Error(`"${story.key}" is not on the outreach list`)
      if (owners.has(story.key)) throw new Error(`"${story.key}" has a story already, at ${owners.get(story.key)}`)
      owners.set(story.key, where)
      return story
    })
  })
}

function storyOfCells(cells: Readonly<Record<string, string>>, language: string): Story {
  const { sources, ...parts } = checked(cells)
  return { ...parts, language, sources: storySources(sources) }
}

function checked(cells: Readonly<Record<string, string>>): StoryRow {
  const strange = Object.keys(cells).find((column) => !(column in StoryRow.properties))
  if (strange !== undefined) throw new Error(`${strange} is no column of the stories`)
  if (Value.Check(StoryRow, cells)) return cells
  const [error] = Value.Errors(StoryRow, cells)
  throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${error?.message}`)
}

/** `see lookFor: from memory; how: our judgement` as a source for each part; every part needs one. */
function storySources(text: string): Readonly<Record<string, string>> {
  const sources: Record<string, string> = {}
  for (const group of text.split('; ')) {
    const [parts = '', source = ''] = group.split(': ')
    if (source !== TRADE && sourceClass(source) === null)
      throw new Error(`source "${group}" is not one this list knows`)
    for (const part of parts.split(' ')) {
      if (!STORY_PARTS.some((known) => known === part)) throw new Error(`source "${group}" stands beside no part`)
      sources[part] = source
    }
  }
  const bare = STORY_PARTS.find((part) => sources[part] === undefined)
  if (bare !== undefined) throw new Error(`${bare} has no source`)
  return sources
}

function inPlace<T>(where: string, read: () => T): T {
  try {
    return read()
  } catch (error) {
    throw new Error(`${where}: ${error instanceof Error ? error.message : String(error)}`)
  }
}
