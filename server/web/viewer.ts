import type { FastifyRequest } from 'fastify'
import type { Clock } from '../clock.ts'
import type { Desk } from '../desk/desk.ts'
import { CHOICES, type WordsFor } from './language.ts'
import type { Viewer } from './pages/sheet.ts'
import { siteNames } from './pages/site-names.ts'
import { telescopeNames } from './pages/telescope-names.ts'
import type { WhoOf } from './roles.ts'

type ViewerOf = (request: FastifyRequest) => Viewer

interface Needs {
  readonly desk: Pick<Desk, 'nights' | 'sites' | 'telescopes'>
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

/** Names are looked up for those pages alone that call a thing by one. */
function whenAsked<Thing>(namesOf: () => (thing: Thing) => string): (thing: Thing) => string {
  let nameOf: ((thing: Thing) => string) | undefined
  return (thing) => {
    nameOf ??= namesOf()
    return nameOf(thing)
  }
}

/** Tells who reads a page, when by the evening's clock, and in which words. */
export function viewerTeller({ desk, clock, wordsFor, whoOf }: Needs): ViewerOf {
  return (request) => {
    const who = whoOf(request)
    const words = wordsFor(request)
    const mayHost = who?.role === 'host'
    return {
      words,
      who,
      mayHost,
      mayAct: who !== undefined,
      now: clock.now(),
      isRehearsal: clock.isRehearsal,
      path: request.method === 'GET' ? pathOf(request.url) : null,
      telescopeName: whenAsked(() => telescopeNames({ words, mayHost }, desk.telescopes.all(), desk.nights.all())),
      siteName: whenAsked(() => siteNames(words, desk.sites.all())),
    }
  }
}
