import type { FastifyRequest } from 'fastify'
import type { Clock } from '../clock.ts'
import { CHOICES, type WordsFor } from './language.ts'
import type { Viewer } from './pages/sheet.ts'
import type { WhoOf } from './roles.ts'

type ViewerOf = (request: FastifyRequest) => Viewer

interface Needs {
  readonly clock: Clock
  readonly wordsFor: WordsFor
  readonly whoOf: WhoOf
}

/** Without what it asked about how it is read, which would undo a choice. */
function pathOf(url: string): string | null {
  const [path = '', query = ''] = url.split('?')
  if (path === '/reading') return null
  const asked = new URLSearchParams(query)
  for (const choice of CHOICES) asked.delete(choice)
  return asked.size === 0 ? path : `${path}?${asked}`
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
      path: request.method === 'GET' ? pathOf(request.url) : null,
    }
  }
}
