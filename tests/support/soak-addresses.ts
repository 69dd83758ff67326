import type { Night } from '../../server/tours/night.ts'

/** What the phones of a night ask for, by how often. */
export const addressesOf = ({ id, stations }: Pick<Night, 'id' | 'stations'>) => ({
  /** Each visitor, again and again. */
  visitor: [
    `/tonight/${id}`,
    '/',
    `/tonight/${id}`,
    `/nights/${id}`,
    `/tonight/${id}`,
    `/nights/${id}/objects`,
    `/api/nights/${id}/changes`,
    `/nights/${id}/hole`,
  ],
  /** The page that an operator has open is renewed after each act. */
  operator: [...stations.map((station) => `/field/${id}/${station.id}`), `/field/${id}`, `/field/${id}/line`],
  /** Somebody, now and then: most of it is reckoned anew in the worker. */
  seldom: [
    `/nights/${id}/objects/saturn`,
    '/objects/m42',
    `/nights/${id}/programme`,
    `/nights/${id}/aloud`,
    `/nights/${id}/line`,
    `/nights/${id}/again`,
    `/nights/${id}/go`,
  ],
  /** All operators, at each half hour. */
  check: [`/nights/${id}/check`, `/api/nights/${id}/check`],
  /** One of them, at each half hour. */
  report: `/nights/${id}/report`,
})
