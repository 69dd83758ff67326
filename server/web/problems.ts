import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { Fault, type FaultCode, type MessageValues, type Problem } from '../errors.ts'
import type { Words } from '../words/words.ts'
import { SAFE_HEADERS } from './headers.ts'
import { problemPage } from './pages/problem-page.ts'
import type { Viewer } from './pages/sheet.ts'
import { storageTrouble } from './storage-trouble.ts'
import type { SendPage } from './views.ts'

/** What a guest is told when something cannot be done: a status, the key of the sentence, its values, and the fields. */
export interface Trouble {
  readonly status: number
  readonly key: string
  readonly values?: MessageValues
  readonly problems?: readonly Problem[]
}

export type AnswerTrouble = (
  request: FastifyRequest,
  reply: FastifyReply,
  trouble: Trouble,
) => FastifyReply | Promise<FastifyReply>

const STATUS: Readonly<Record<FaultCode, number>> = {
  'not-found': 404,
  invalid: 422,
  conflict: 409,
  forbidden: 403,
  'too-large': 413,
  busy: 503,
  storage: 507,
}

/** Faults whose status is not that of their code. */
const STATUS_OF_KEY: Readonly<Record<string, number>> = {
  'fault.too-many-tries': 429,
  'fault.too-many-codes': 429,
}

/** Sentences for what the HTTP layer itself refuses, by status. */
const KEYS: Readonly<Record<number, string>> = {
  400: 'fault.malformed',
  404: 'fault.no-page',
  413: 'fault.too-large',
  414: 'fault.no-page',
  415: 'fault.content-type',
  429: 'fault.too-many',
  503: 'fault.busy',
}

/** Turns whatever was thrown into what a guest may read; everything unexpected is a 500 that says nothing of itself. */
export function troubleOf(error: unknown): Trouble {
  if (error instanceof Fault) {
    const { code, key, values, problems } = error
    return { status: STATUS_OF_KEY[key] ?? STATUS[code], key, values, problems }
  }
  const storage = storageTrouble(error)
  if (storage) return storage
  const status = statusOf(error)
  const key = KEYS[status]
  return key ? { status, key } : { status: 500, key: 'fault.internal' }
}

/** The status that the HTTP layer gave an error of its own, 500 for any other. */
const statusOf = (error: unknown): number =>
  error instanceof Error && 'statusCode' in error && typeof error.statusCode === 'number' ? error.statusCode : 500

/** The sentence of a key; the key itself where a language has no sentence yet, so that an error never causes another. */
const say = (words: Words, key: string, values?: MessageValues): string =>
  words.knows(key) ? words.say(key, values) : key

/** Answers a trouble as JSON below /api and as a page elsewhere, in the reader's language. */
export function troubleTeller(viewerOf: (request: FastifyRequest) => Viewer, sendPage: SendPage): AnswerTrouble {
  return (request, reply, { status, key, values, problems = [] }) => {
    const viewer = viewerOf(request)
    const said = problems.map((problem) => ({
      field: problem.field,
      code: problem.key,
      message: say(viewer.words, problem.key, problem.values),
    }))
    const message = say(viewer.words, key, values)
    reply.code(status).headers(SAFE_HEADERS).header('cache-control', 'no-store')
    if (isApi(request)) return reply.send({ error: { code: key, message, problems: said } })
    return sendPage(reply, 'problem', problemPage(viewer, { status, key, message, problems: said }, fieldLook(request)))
  }
}

/** The look of the field's pages on the field, where one white page would cost half an hour of dark-adapted eyes. */
const fieldLook = (request: FastifyRequest): 'day' | 'lamp' =>
  request.url.startsWith('/field/') && request.cookies?.look !== 'day' ? 'lamp' : 'day'

/** True for addresses that speak JSON. */
export const isApi = (request: FastifyRequest): boolean => request.url.startsWith('/api/')

/** The one place where errors become answers: what was thrown, what is not there. Faults of ours are logged, never shown. */
export function handleErrors(app: FastifyInstance, answer: AnswerTrouble): void {
  app.setErrorHandler(async (error, request, reply) => {
    const trouble = troubleOf(error)
    if (trouble.status === 500 || storageTrouble(error)) request.log.error(error)
    return answer(request, reply, trouble)
  })
  app.setNotFoundHandler({ preHandler: app.rateLimit() }, async (request, reply) =>
    answer(request, reply, { status: 404, key: 'fault.no-page' }),
  )
}
