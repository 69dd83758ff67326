import type { FastifyInstance } from 'fastify'
import { expect } from 'vitest'
import { filledIn } from './typed-form.ts'
import { asHost, type TestApp } from './web.ts'

export type Fields = Record<string, string>

/** A site as a host types it, its zone left blank. */
const TYPED_SITE = {
  name: 'Oak hill',
  latitudeDeg: '48.2',
  longitudeDeg: '11.6',
  heightM: '520',
  zone: '',
  skyMag: '20',
}

/** Sends the form of a site; what `fields` does not say is as in `TYPED_SITE`. */
export const postSite = (app: FastifyInstance, fields: Fields, url = '/sites') =>
  app.inject(
    asHost({
      method: 'POST',
      url,
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ ...TYPED_SITE, ...fields }).toString(),
    }),
  )

const plain = (html: string): string => html.replaceAll('&#x27;', "'").replaceAll('&quot;', '"')

/** The words beside a field that is wrong. */
export const beside = (html: string, field: string): string =>
  plain(new RegExp(`id="field-${field}-problem">(.*?)</(?:p|ul)>`, 's').exec(html)?.[1] ?? '')

/** What is told above the skyline. */
export const told = (html: string): string[] =>
  [...html.matchAll(/<p class="told" role="status">([^<]*)</g)].map(([, text = '']) => text)

const pasted = (html: string): string => plain(/<textarea[^>]* name="skylineList"[^>]*>([^<]*)</.exec(html)?.[1] ?? '')

/** The page that refuses these fields: nothing is kept, and every field comes back as it was typed. */
export async function refusedSite({ app, kept }: TestApp, fields: Fields): Promise<string> {
  const before = kept.sites.length
  const answer = await postSite(app, fields)
  expect([answer.statusCode, kept.sites.length]).toEqual([422, before])
  const { skylineList = '', act: _, ...typed }: Fields = { ...TYPED_SITE, ...fields }
  const back = filledIn(answer.body)
  for (const [name, value] of Object.entries(typed)) expect([name, plain(back[name] ?? '')]).toEqual([name, value])
  expect(pasted(answer.body)).toBe(skylineList)
  return answer.body
}
