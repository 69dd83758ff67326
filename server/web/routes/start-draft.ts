import type { StartAsked, StartDesk, StartPlace } from '../../desk/start.ts'
import type { Problem } from '../../errors.ts'
import { calendarDate } from '../../tours/hours.ts'
import { kitSaid, type SaidTelescope } from '../../tours/kit-said.ts'
import { kitWords } from '../../tours/kit-words.ts'
import { dateSaid } from '../../words/date-said.ts'
import type { Words } from '../../words/words.ts'
import { ASSUMED_NOTE } from '../pages/kit-note.ts'
import type { Viewer } from '../pages/sheet.ts'
import { placeValue } from '../pages/start.ts'
import type { FormValues } from './form-values.ts'

/** Three lines as they were understood: what is to be made, or what is wrong and which places may be meant. */
export interface StartRead {
  readonly asked: StartAsked | null
  readonly problems: readonly Problem[]
  readonly places: readonly StartPlace[]
}

const LONGEST_TOWN = 80
/** So that the name of a night has room for what stands around it. */
const LONGEST_IN_TITLE = 50

/** Reads the three lines of a form. */
export function readStart({ words, now }: Viewer, desk: StartDesk, values: FormValues): StartRead {
  const town = (values.town ?? '').trim()
  const { place, places, problems: ofPlace } = readPlace(desk, town, values.place)
  const day = dateSaid(words, values.date ?? '', calendarDate(now, place?.zone ?? 'UTC'))
  const kit = kitSaid(values.kit ?? '', kitWords(words))
  const ofDate = 'date' in day ? [] : [{ field: 'date', ...day }]
  const problems = [...ofPlace, ...ofDate, ...kit.problems]
  if (!place || !('date' in day) || problems.length > 0) return { asked: null, problems, places }
  const asked = {
    place,
    date: day.date,
    title: words.say('start.night-title', { town: place.name.slice(0, LONGEST_IN_TITLE) }),
    kit: kit.telescopes.map((said) => ({ said, name: kindName(words, said) })),
    note: ASSUMED_NOTE,
  }
  return { asked, problems, places }
}

interface PlaceRead {
  readonly place: StartPlace | undefined
  readonly places: readonly StartPlace[]
  readonly problems: readonly Problem[]
}

/** The one place that fits, or the one chosen of several. */
function readPlace(desk: StartDesk, town: string, chosen: string | undefined): PlaceRead {
  const refused = (key: string, values: Problem['values'] = {}): PlaceRead => ({
    place: undefined,
    places: [],
    problems: [{ field: 'town', key: `problem.${key}`, values }],
  })
  if (town === '') return refused('town-none')
  if (town.length > LONGEST_TOWN) return refused('town-long', { maximum: LONGEST_TOWN })
  const places = desk.places(town)
  const [only, ...others] = places
  if (!only) {
    const near = desk.near(town)
    return near.length > 0 ? refused('town-near', { town, near: near.join(' · ') }) : refused('town-unknown', { town })
  }
  const place = others.length === 0 ? only : places.find((one) => placeValue(one) === chosen)
  const problems = place ? [] : [{ field: 'place', key: 'problem.town-many', values: { town } }]
  return { place, places, problems }
}

/** `130 mm reflector`, or `130 mm telescope` where its kind was not said. */
const kindName = (words: Words, { apertureMm, design }: SaidTelescope): string =>
  words.say('start.kit-name', {
    mm: words.number(apertureMm, Number.isInteger(apertureMm) ? 0 : 1),
    kind: words.say(`start.design-${design ?? 'unsaid'}`),
  })
