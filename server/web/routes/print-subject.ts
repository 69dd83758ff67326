import type { Static } from 'typebox'
import type { Desk } from '../../desk/desk.ts'
import { Fault } from '../../errors.ts'
import { NO_VISIT } from '../../tours/class-visit.ts'
import { eveningDate } from '../../tours/hours.ts'
import { languageCode } from '../../tours/own-words.ts'
import { placeOf } from '../../tours/site.ts'
import { NO_NOTES } from '../../tours/site-notes.ts'
import { CARDS_AMONG_OTHERS, type CardChoice } from '../pages/card-choice.ts'
import { lookAsked, type PrintQuery } from '../pages/paper-choice.ts'
import type { PrintSubject } from '../pages/papers.ts'
import { printPictures } from '../pages/print-pictures.ts'
import type { SecondLanguage } from '../pages/second-language.ts'
import type { Viewer } from '../pages/sheet.ts'
import { withRowNames } from '../pages/telescope-names.ts'
import { drawnInTurn } from './drawn-in-turn.ts'
import { namesFrom } from './needs.ts'

/** What is printed of a night, in which words, and how. */
interface PrintAsked {
  readonly viewer: Viewer
  readonly id: string
  readonly query: Static<typeof PrintQuery>
  readonly cards?: CardChoice
}

/** What is made of all that is known of a night, its pictures drawn in turn; a Fault where there is no programme. */
export async function printed<Made>(
  desk: Desk,
  { viewer, id, query, cards = CARDS_AMONG_OTHERS }: PrintAsked,
  make: (subject: PrintSubject) => Made,
): Promise<Made> {
  const { words, mayHost } = viewer
  const { language } = words.settings
  const night = withRowNames(viewer, desk.nights.find(id))
  const tour = desk.tours.current(id)
  if (tour === undefined) throw new Fault('not-found', 'fault.no-tour')
  const keys = [...new Set(tour.stops.map(({ targetKey }) => targetKey))]
  const names = namesFrom(desk, words, id)
  const evening = desk.sky.evening(eveningDate(night), placeOf(night.site), night.site.zone)
  const look = lookAsked(query)
  const subject = {
    night,
    tour,
    isStale: desk.tours.stateOf(tour).isStale,
    names,
    evening,
    setUp: await desk.alignment.setUp(id),
    checks: await desk.checks.evening(id),
    beside: await desk.beside(id, tour),
    thin: await desk.go.thinCloud(id),
    bareEyes: desk.charts.bareEyes(id),
    groupText: desk.groupText.find(),
    siteNotes: mayHost ? desk.notes.site(night.site.id) : NO_NOTES,
    checklist: desk.notes.checklist(id).items,
    visit: mayHost ? desk.notes.visit(id) : NO_VISIT,
    second: secondOf(desk, id, language, query.second),
    cards,
    look,
  }
  const walks = await desk.charts.walks(id, keys)
  const { charts } = desk
  const pictures = printPictures(words, { night, tour, evening, names, charts, walks, paper: look.paper })
  return drawnInTurn(pictures, (drawn) => make({ ...subject, pictures: drawn }))
}

/** The language asked for, if there are words in it and it is not the reader's own. */
function secondOf({ words, objects }: Desk, nightId: string, own: string, asked = ''): SecondLanguage {
  const languages = words.languages(nightId)
  const language = languages.find((code) => code === languageCode(asked) && code !== own) ?? null
  const story = (key: string) => (language === null ? undefined : objects.story(key, language, nightId))
  return { language, languages, story }
}
