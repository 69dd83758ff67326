import type { FastifyReply, FastifyRequest } from 'fastify'
import { Type } from 'typebox'

const COOKIE = 'look'
const NIGHT_S = 43_200

/** What a page with two looks may be asked. */
export const LookQuery = Type.Object({ look: Type.Optional(Type.Union([Type.Literal('day'), Type.Literal('lamp')])) })

interface Asked {
  readonly look: 'day' | 'lamp' | undefined
  /** The folder of pages that the choice holds for. */
  readonly path: '/field' | '/tonight'
  readonly usual: 'day' | 'lamp'
}

/** The look that was asked for, kept for the night; without one the one kept, else the usual one. */
export function lookOf(request: FastifyRequest, reply: FastifyReply, { look, path, usual }: Asked): 'day' | 'lamp' {
  if (look) reply.setCookie(COOKIE, look, { path, sameSite: 'lax', httpOnly: true, maxAge: NIGHT_S })
  const wished = look ?? request.cookies[COOKIE]
  return wished === 'day' || wished === 'lamp' ? wished : usual
}
