import { beforeAll, expect, it } from 'vitest'
import type { RouteRole } from '../../server/web/roles.ts'
import { PAGES } from '../support/page-addresses.ts'
import { testApp } from '../support/web.ts'

/** What is answered to a GET and is no page: data, files to keep, and what pages are made of. */
const NO_PAGES = /^\/(api|assets)\/|\.(csv|ics)$|\/file$/
/** A form that stands in the list where it is empty; the demo has nothing of its own that it could be opened for. */
const SAME_FORM = ['/extras/:key/edit']
const PARTS = /:(night|station|site|telescope|backup)\b/g

const routes: RouteRole[] = []
beforeAll(async () => {
  const { app } = await testApp({ routeSeen: (route) => routes.push(route) })
  await app.close()
})

/** Whether an address leads to a route; a part that has a name in the route may be anything. */
const leadsTo = (address: string, route: string): boolean =>
  new RegExp(`^${route.replaceAll(/:\w+/g, '[^/]+')}$`).test(address.replace(/\?.*/, '').replaceAll(PARTS, 'x'))

it('has an address for every page that a person can open', () => {
  const pages = routes
    .filter(({ method, url }) => method === 'GET' && !NO_PAGES.test(url) && !SAME_FORM.includes(url))
    .map(({ url }) => url)
  expect(pages.length).toBeGreaterThan(50)
  const addresses = Object.values(PAGES)
  expect(pages.filter((route) => !addresses.some((address) => leadsTo(address, route)))).toEqual([])
})

it('leads nowhere but to pages', () => {
  const urls = routes.filter(({ method }) => method === 'GET').map(({ url }) => url)
  expect(Object.values(PAGES).filter((address) => !urls.some((route) => leadsTo(address, route)))).toEqual([])
})
