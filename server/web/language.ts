import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import { createWords, type MessageTable, type Words } from '../words/words.ts'
import { VIEWS } from './views.ts'

export type WordTables = Readonly<Record<string, MessageTable>>
export type WordsFor = (request: FastifyRequest) => Words

const COOKIE = 'lang'
const YEAR_S = 31_536_000

/** The message tables of views/words by language. */
export function readWordTables(folder = join(VIEWS, 'words')): WordTables {
  const files = readdirSync(folder).filter((file) => file.endsWith('.json'))
  return Object.fromEntries(
    files.map((file) => [basename(file, '.json'), JSON.parse(readFileSync(join(folder, file), 'utf8'))]),
  )
}

/** The words of each reader: by `?lang`, else by the cookie of an earlier choice, else English. */
export function wordsTeller(tables: WordTables): WordsFor {
  const settings = { hours12: false, units: 'metric' } as const
  const words = new Map(
    Object.entries(tables).map(([language, table]) => [language, createWords(table, { language, ...settings })]),
  )
  const english = words.get('en') ?? createWords({}, { language: 'en', ...settings })
  return (request) => words.get(askedLanguage(request) ?? '') ?? words.get(request.cookies?.[COOKIE] ?? '') ?? english
}

function askedLanguage(request: FastifyRequest): string | undefined {
  const query: unknown = request.query
  if (typeof query !== 'object' || query === null || !('lang' in query)) return undefined
  return typeof query.lang === 'string' ? query.lang : undefined
}

/** Remembers a language that was asked for by `?lang`, when there is a table for it. */
export function rememberLanguage(app: FastifyInstance, tables: WordTables): void {
  app.addHook('onRequest', async (request, reply) => {
    const language = askedLanguage(request)
    if (language === undefined || !Object.hasOwn(tables, language)) return
    reply.setCookie(COOKIE, language, { path: '/', sameSite: 'lax', httpOnly: true, maxAge: YEAR_S })
  })
}
