import type { FastifyRequest } from 'fastify'
import type { Clock } from '../clock.ts'
import type { WordsFor } from './language.ts'
import type { Viewer } from './pages/sheet.ts'
import type { RoleOf } from './roles.ts'

export type ViewerOf = (request: FastifyRequest) => Viewer

interface Needs {
  readonly clock: Clock
  readonly wordsFor: WordsFor
  readonly roleOf: RoleOf
}

/** Tells who reads a page, when by the evening's clock, and in which words. */
export function viewerTeller({ clock, wordsFor, roleOf }: Needs): ViewerOf {
  return (request) => {
    const role = roleOf(request)
    return {
      words: wordsFor(request),
      mayHost: role === 'host',
      mayAct: role !== 'visitor' && role !== 'helper',
      now: clock.now(),
      isRehearsal: clock.isRehearsal,
    }
  }
}
