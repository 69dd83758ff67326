import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import { createWords, type MessageTable, UNITS, type Units, type Words } from '../words/words.ts'
import { VIEWS } from './views.ts'

export type WordTables = Readonly<Record<string, MessageTable>>
export type WordsFor = (request: FastifyRequest) => Words

/** What a reader may ask for in an address, and the cookie that remembers it. */
const LANGUAGE = { query: 'lang', cookie: 'lang' } as const
const UNITS_ASKED = { query: 'units', cookie: 'units' } as const
const YEAR_S = 31_536_000

/** The message tables of views/words by language. */
export function readWordTables(folder = join(VIEWS, 'words')): WordTables {
  const files = readdirSync(folder).filter((file) => file.endsWith('.json'))
  return Object.fromEntries(
    files.map((file) => [basename(file, '.json'), JSON.parse(readFileSync(join(folder, file), 'utf8'))]),
  )
}

/** The words of each reader: by `?lang` and `?units`, else by the cookies of an earlier choice, else English and metric. */
export function wordsTeller(tables: WordTables): WordsFor {
  const made = new Map<string, Words>()
  const wordsIn = (language: string, units: Units): Words => {
    const name = `${language} ${units}`
    const words = made.get(name) ?? createWords(tables[language] ?? {}, { language, hours12: false, units })
    made.set(name, words)
    return words
  }
  const isLanguage = (text: string): text is string => Object.hasOwn(tables, text)
  return (request) =>
    wordsIn(choiceOf(request, LANGUAGE, isLanguage) ?? 'en', choiceOf(request, UNITS_ASKED, isUnits) ?? 'metric')
}

const isUnits = (text: string): text is Units => UNITS.some((units) => units === text)

type Asked = typeof LANGUAGE | typeof UNITS_ASKED

/** What is asked for in the address, else what the cookie remembers; undefined where neither is known. */
function choiceOf<Known extends string>(
  request: FastifyRequest,
  asked: Asked,
  isKnown: (text: string) => text is Known,
): Known | undefined {
  return [askedFor(request, asked), request.cookies?.[asked.cookie]].find(
    (text): text is Known => text !== undefined && isKnown(text),
  )
}

function askedFor({ query }: FastifyRequest, { query: name }: Asked): string | undefined {
  if (typeof query !== 'object' || query === null) return undefined
  const value: unknown = Reflect.get(query, name)
  return typeof value === 'string' ? value : undefined
}

/** Remembers a language that was asked for by `?lang`, when there is a table for it, and units asked for by `?units`. */
export function rememberLanguage(app: FastifyInstance, tables: WordTables): void {
  app.addHook('onRequest', async (request, reply) => {
    const keep = (asked: Asked, isKnown: (text: string) => boolean): void => {
      const value = askedFor(request, asked)
      if (value === undefined || !isKnown(value)) return
      reply.setCookie(asked.cookie, value, { path: '/', sameSite: 'lax', httpOnly: true, maxAge: YEAR_S })
    }
    keep(LANGUAGE, (text) => Object.hasOwn(tables, text))
    keep(UNITS_ASKED, isUnits)
  })
}
