import type { InjectOptions } from 'fastify'
import type { AppNeeds } from '../../server/app.ts'
import type { PhoneAddress } from '../../server/web/addresses.ts'
import { joinedDesk, OWN } from './joined-night.ts'
import { pagedApp } from './paged-app.ts'
import { asHost, asVisitor, formPost } from './web.ts'

export interface PhoneService extends Awaited<ReturnType<typeof phoneService>> {}

/** The service with its real codes, sessions and pages, and networks that a test may change while it runs. */
export async function phoneService(needs: Partial<AppNeeds> = {}, ...database: Parameters<typeof joinedDesk>) {
  const addresses: PhoneAddress[] = [
    { network: 'hotspot', address: '192.168.137.1' },
    { network: 'wlan0', address: '192.168.1.23' },
  ]
  const joined = await joinedDesk(...database)
  const { app } = await pagedApp({
    desk: joined.desk,
    clock: joined.clock,
    phonesWay: { isOpen: true, port: () => 8080, addresses: () => addresses },
    ...needs,
  })
  const host = (options: InjectOptions, token = joined.now.host) =>
    app.inject(asHost({ ...options, headers: { cookie: `duskrow-session=${token}`, ...options.headers } }))
  const phone = (options: InjectOptions, token = '') =>
    app.inject(
      asVisitor({ ...options, headers: { ...(token && { cookie: `duskrow-session=${token}` }), ...options.headers } }),
    )
  return {
    app,
    addresses,
    desk: joined.desk,
    clock: joined.clock,
    tokens: joined.now,
    /** Asks as the host at the laptop. */
    host,
    /** Asks as a phone on the field, with a session or without. */
    phone,
    /** Sends a form from a phone. */
    send: (url: string, fields: Readonly<Record<string, string>>, token = '') => phone(formPost(url, fields), token),
    /** Sends the form of an act on the page of the phones. */
    act: (act: string, value = '') => host(formPost(`/nights/${OWN.id}/phones`, { act, value })),
    async close() {
      await app.close()
      joined.close()
    },
  }
}

/** A page as it was before its words were escaped. */
export const unescaped = (html: string): string => html.replaceAll('&#x27;', "'").replaceAll('&#x3D;', '=')

/** What a page says, without its markup. */
export const textOf = (html: string): string =>
  unescaped(html)
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ')
