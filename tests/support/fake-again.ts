import type { Desk } from '../../server/desk/desk.ts'
import { invalid, notFound } from '../../server/errors.ts'
import { toldMarks, toldProblems } from '../../server/tours/again-marks.ts'
import { newsOf } from '../../server/tours/news.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Kept } from './fake-desk.ts'

/** News of marks kept in a list: nothing is ever under way, and the newest programme is the one that the row goes by. */
export function fakeAgain(kept: Pick<Kept, 'tours' | 'marks'>, at: Date, night: (id: string) => Night): Desk['again'] {
  const field = { seq: kept.marks.length, at, stations: [], adultsIn: 0, childrenIn: 0 }
  return {
    state(id) {
      const news = newsOf(night(id), kept.marks, at)
      const tour = kept.tours.findLast(({ nightId }) => nightId === id)
      if (!tour) throw notFound('tour')
      return { at, fromAt: at, news, field, tour, hasBegun: false, waiting: null, changes: [] }
    },
    tell(id, told, by) {
      const { stations } = night(id)
      const known = { ...field, stations, news: newsOf(night(id), kept.marks, at), countedAt: null }
      const problems = toldProblems(told, known)
      if (problems.length > 0) throw invalid(problems)
      for (const { secondsAgo: _secondsAgo, ...draft } of toldMarks(told, known)) {
        kept.marks.push({ ...draft, seq: kept.marks.length + 1, nightId: id, by, receivedAt: at, happenedAt: at })
      }
    },
  }
}
