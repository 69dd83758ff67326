import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import type { Desk } from '../desk/desk.ts'
import { createWords, type MessageTable, UNITS, type Units, type Words, type WordsSettings } from '../words/words.ts'
import { VIEWS } from './views.ts'

export type WordTables = Readonly<Record<string, MessageTable>>
export type WordsFor = (request: FastifyRequest) => Words

/** What a reader may ask for in an address; the cookie of the same name remembers it. */
export const CHOICES = ['lang', 'units', 'hours'] as const
type Choice = (typeof CHOICES)[number]
export type Choices = Readonly<Partial<Record<Choice, string>>>
const YEAR_S = 31_536_000

/** The message tables of views/words by language. */
export function readWordTables(folder = join(VIEWS, 'words')): WordTables {
  const files = readdirSync(folder).filter((file) => file.endsWith('.json'))
  return Object.fromEntries(
    files.map((file) => [basename(file, '.json'), JSON.parse(readFileSync(join(folder, file), 'utf8'))]),
  )
}

/** The words of each reader: as the address asks, else as the cookies of an earlier choice have it, else as the host has it for everybody. */
export function wordsTeller(tables: WordTables, { objects, reading }: Pick<Desk, 'objects' | 'reading'>): WordsFor {
  const made = new Map<string, Words>()
  const isKnown = knownIn(tables)
  return (request) => {
    const settings = settingsOf(choicesOf(request, isKnown), reading.usual())
    const name = Object.values(settings).join()
    const words =
      made.get(name) ?? createWords(tables[settings.language] ?? {}, settings, objects.namesIn(settings.language))
    made.set(name, words)
    return words
  }
}

/** What is chosen, and the usual for the rest. */
export const settingsOf = ({ lang, units, hours }: Choices, usual: WordsSettings): WordsSettings => ({
  language: lang ?? usual.language,
  hours12: hours === undefined ? usual.hours12 : hours === '12',
  units: UNITS.find((each) => each === units) ?? usual.units,
})

/** What there is to choose from. */
export const optionsIn = (tables: WordTables): Readonly<Record<Choice, readonly string[]>> => ({
  lang: Object.keys(tables).sort(),
  units: UNITS satisfies readonly Units[],
  hours: ['24', '12'],
})

type IsKnown = (choice: Choice, value: string) => boolean

function knownIn(tables: WordTables): IsKnown {
  const options = optionsIn(tables)
  return (choice, value) => options[choice].includes(value)
}

function choicesOf(request: FastifyRequest, isKnown: IsKnown): Choices {
  const asked = CHOICES.map((choice) => {
    const values = [askedFor(request, choice), request.cookies?.[choice]]
    return [choice, values.find((value) => value !== undefined && isKnown(choice, value))]
  })
  return Object.fromEntries(asked)
}

function askedFor({ query }: FastifyRequest, choice: Choice): string | undefined {
  if (typeof query !== 'object' || query === null) return undefined
  const value: unknown = Reflect.get(query, choice)
  return typeof value === 'string' ? value : undefined
}

/** Remembers a language, units and hours that were asked for in an address, where they are known. */
export function rememberChoices(app: FastifyInstance, tables: WordTables): void {
  const isKnown = knownIn(tables)
  app.addHook('onRequest', async (request, reply) => {
    for (const choice of CHOICES) {
      const value = askedFor(request, choice)
      if (value === undefined || !isKnown(choice, value)) continue
      reply.setCookie(choice, value, { path: '/', sameSite: 'lax', httpOnly: true, maxAge: YEAR_S })
    }
  })
}
