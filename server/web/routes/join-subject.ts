import type { Night } from '../../tours/night.ts'
import { withFirst } from '../addresses.ts'
import type { JoinCardSubject } from '../pages/join-card.ts'
import type { PageNeeds } from './needs.ts'

/** What a join card says of a night; addresses are read anew each time, since a hotspot may come up after the service. */
export const joinSubject = (
  { desk, phonesWay }: Pick<PageNeeds, 'desk' | 'phonesWay'>,
  night: Night,
): JoinCardSubject => ({
  night,
  addresses: withFirst(phonesWay.addresses(), desk.joins.network()),
  port: phonesWay.port(),
  codes: desk.joins.codes(night.id),
})
