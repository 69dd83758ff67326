import type { FastifyRequest } from 'fastify'
import type { Clock } from '../clock.ts'
import type { WordsFor } from './language.ts'
import type { Viewer } from './pages/sheet.ts'
import type { WhoOf } from './roles.ts'

export type ViewerOf = (request: FastifyRequest) => Viewer

interface Needs {
  readonly clock: Clock
  readonly wordsFor: WordsFor
  readonly whoOf: WhoOf
}

/** Tells who reads a page, when by the evening's clock, and in which words. */
export function viewerTeller({ clock, wordsFor, whoOf }: Needs): ViewerOf {
  return (request) => {
    const who = whoOf(request)
    return {
      words: wordsFor(request),
      who,
      mayHost: who?.role === 'host',
      mayAct: who !== undefined,
      now: clock.now(),
      isRehearsal: clock.isRehearsal,
    }
  }
}
