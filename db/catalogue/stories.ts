import { existsSync } from 'node:fs'
import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import { STORY_PARTS, type StoryPart } from '../../server/tours/story-parts.ts'
import type { ShowObject, Story } from '../../server/tours/target.ts'
import { OUTREACH_NAMES, outreachOf } from './outreach.ts'
import { type OutreachFile, outreachFile, readRows } from './outreach-file.ts'
import { sourceClass } from './outreach-sources.ts'

const TRADE = 'common practice, no source'
const sentences = (maxLength: number) => Type.String({ minLength: 8, maxLength, pattern: '^\\S.*[.?!]$' })
const StoryRow = Type.Object(
  {
    key: Type.String({ pattern: '^[a-z][a-z0-9]*(-[a-z0-9]+)*$', maxLength: 40 }),
    see: sentences(180),
    lookFor: sentences(180),
    how: sentences(180),
    compare: Type.Union([Type.Literal(''), sentences(180)]),
    answer: sentences(180),
    children: sentences(240),
    more: sentences(400),
    sources: Type.String({ minLength: 1 }),
  },
  { additionalProperties: false },
)
type StoryRow = Static<typeof StoryRow>

/**
 * Every story that ships in a language (its code, `en`), checked; [] in a language in which nothing is written.
 * Throws an Error that names file and line for the first row that does not hold, or that tells of nothing in the file of the list it stands beside.
 */
export function readStories(language: string): readonly Story[] {
  return OUTREACH_NAMES.filter((name) =>
    existsSync(new URL(`./outreach/${name}.${language}.csv`, import.meta.url)),
  ).flatMap((name) => {
    const told = outreachOf([outreachFile(`${name}.csv`)])
    return storiesOf(
      outreachFile(`${name}.${language}.csv`),
      language,
      new Map(told.map((object) => [object.key, object])),
    )
  })
}

/** The stories of one file in its order, each of one of these objects; throws an Error that names file and line for the first row that does not hold. */
export function storiesOf(
  file: OutreachFile,
  language: string,
  told: ReadonlyMap<string, Pick<ShowObject, 'distanceLy'>>,
): readonly Story[] {
  const owners = new Map<string, string>()
  return readRows(file, (cells, where) => {
    const story = storyOfCells(cells, language)
    const object = told.get(story.key)
    if (object === undefined) throw new Error(`"${story.key}" is not in the list beside this file`)
    if (story.compare === '' && object.distanceLy === null)
      throw new Error('compare may be empty only beside a distance')
    if (owners.has(story.key)) throw new Error(`"${story.key}" has a story already, at ${owners.get(story.key)}`)
    owners.set(story.key, where)
    return story
  })
}

function storyOfCells(cells: Readonly<Record<string, string>>, language: string): Story {
  const { sources, ...parts } = checked(cells)
  const told = STORY_PARTS.filter((part) => parts[part] !== '')
  return { ...parts, language, sources: storySources(sources, told) }
}

function checked(cells: Readonly<Record<string, string>>): StoryRow {
  const strange = Object.keys(cells).find((column) => !(column in StoryRow.properties))
  if (strange !== undefined) throw new Error(`${strange} is no column of the stories`)
  if (Value.Check(StoryRow, cells)) return cells
  const [error] = Value.Errors(StoryRow, cells)
  throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${error?.message}`)
}

/** `see lookFor: from memory; how: our judgement` as a source for each part; every part that is told needs one. */
function storySources(text: string, told: readonly StoryPart[]): Readonly<Record<string, string>> {
  const sources: Record<string, string> = {}
  for (const group of text.split('; ')) {
    const [parts = '', source = ''] = group.split(': ')
    if (source !== TRADE && sourceClass(source) === null)
      throw new Error(`source "${group}" is not one this list knows`)
    for (const part of parts.split(' ')) {
      if (!told.some((known) => known === part)) throw new Error(`source "${group}" stands beside no part`)
      sources[part] = source
    }
  }
  const bare = told.find((part) => sources[part] === undefined)
  if (bare !== undefined) throw new Error(`${bare} has no source`)
  return sources
}
