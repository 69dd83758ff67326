import cookie from '@fastify/cookie'
import Fastify, { type FastifyInstance } from 'fastify'
import type { Clock } from './clock.ts'
import type { Desk } from './desk/desk.ts'
import { NO_WAY, type PhonesWay } from './web/addresses.ts'
import { apiRoutes } from './web/api/index.ts'
import { type Assets, loadAssets, serveAssets } from './web/assets.ts'
import { BODY_LIMIT, checkRequests, takeBodies } from './web/bodies.ts'
import { closeGently } from './web/closing.ts'
import { keepDoor } from './web/door.ts'
import { answerBrokenRequest, sendSafeHeaders } from './web/headers.ts'
import { joinDoorOf } from './web/join-door.ts'
import { keepPages } from './web/kept-pages.ts'
import { rememberChoices, type WordTables, wordsTeller } from './web/language.ts'
import { DEFAULT_LIMITS, keepConnectionsFew, keepPace, type Limits } from './web/limits.ts'
import { announcing, liveBoard } from './web/live.ts'
import { type AnswerTrouble, handleErrors, troubleOf, troubleTeller } from './web/problems.ts'
import { keepRoles, nameRoles, type RouteRole, roleTeller, whoTeller } from './web/roles.ts'
import { pageRoutes } from './web/routes/index.ts'
import { signInDesk } from './web/sign-in.ts'
import { viewerTeller } from './web/viewer.ts'
import { pageSender, pageWriter, readViews, showPages, type WritePage } from './web/views.ts'

export interface AppNeeds {
  readonly desk: Desk
  readonly clock: Clock
  /** The message tables by language. */
  readonly words: WordTables
  /** The Host values that are let in, each with its port; asked at every request. */
  readonly allowedHosts: () => ReadonlySet<string>
  readonly limits?: Limits
  /** How phones reach the laptop; without it they do not. */
  readonly phonesWay?: PhonesWay
  readonly assets?: Assets
  readonly writePage?: WritePage
  /** Told of every route with its role, so that a test can try them all. */
  readonly routeSeen?: (route: RouteRole) => void
  /** Writes unexpected errors to standard error; off in tests. */
  readonly isLogging?: boolean
}

/** The whole service, ready to listen or to be asked by `inject`; fails when a route names no role. */
export async function buildApp(needs: AppNeeds): Promise<FastifyInstance> {
  const { clock, words: tables, allowedHosts, limits = DEFAULT_LIMITS, isLogging = false } = needs
  const { phonesWay = NO_WAY } = needs
  const live = liveBoard()
  const desk = announcing(needs.desk, live)
  const assets = needs.assets ?? (await loadAssets())
  const sendPage = pageSender(needs.writePage ?? pageWriter(assets))
  const wordsFor = wordsTeller(tables, desk)
  const whoOf = whoTeller(desk)
  const roleOf = roleTeller(whoOf)
  const viewerOf = viewerTeller({ desk, clock, wordsFor, whoOf })
  const answer = troubleTeller(viewerOf, sendPage)
  const signIn = signInDesk(desk, limits)
  const app = httpServer(answer, isLogging)

  sendSafeHeaders(app)
  keepConnectionsFew(app, limits)
  closeGently(app, live)
  await app.register(cookie)
  await readViews(app)
  showPages(app, sendPage)
  keepDoor(app, allowedHosts, answer)
  await keepPace(app, limits, roleOf)
  nameRoles(app, needs.routeSeen ?? (() => {}))
  keepRoles(app, roleOf, answer)
  rememberChoices(app, tables)
  handleErrors(app, answer)
  takeBodies(app)
  checkRequests(app)
  keepPages(app, { desk, clock, whoOf })
  serveAssets(app, assets)
  const { version } = desk.health()
  const joinDoor = joinDoorOf(desk)
  const api = { desk, clock, wordsFor, whoOf, limits, signIn, joinDoor, live }
  await app.register(apiRoutes, { prefix: '/api', api, version })
  await app.register(pageRoutes, { desk, clock, tables, wordsFor, viewerOf, signIn, joinDoor, phonesWay })
  return app
}

/** Fastify with time limits for slow senders, since no other server stands in front of this one. */
function httpServer(answer: AnswerTrouble, isLogging: boolean): FastifyInstance {
  return Fastify({
    logger: isLogging && { level: 'error', stream: process.stderr },
    bodyLimit: BODY_LIMIT,
    requestTimeout: 9_000,
    keepAliveTimeout: 10_000,
    http: { headersTimeout: 5_000, connectionsCheckingInterval: 1_000, requireHostHeader: false },
    routerOptions: { maxParamLength: 100 },
    trustProxy: false,
    return503OnClosing: true,
    forceCloseConnections: true,
    clientErrorHandler: answerBrokenRequest,
    frameworkErrors: (error, request, reply) => void answer(request, reply, troubleOf(error)),
  })
}
