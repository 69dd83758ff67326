import { rolesOf } from '../../tours/roles.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { type FormState, formFields } from './form.ts'
import type { FormRow } from './telescope-form-rows.ts'
import { suitsText } from './telescope-text.ts'

const KINDS = ['telescope', 'bare-eye', 'binoculars', 'screen', 'questions'] as const

interface StationSubject {
  readonly state: FormState
  readonly telescopes: readonly Telescope[]
  readonly nameOf: (telescope: Telescope) => string
}

/** The fields of one station of the row; a telescope that is put away is offered only where it stands already. */
export function stationRow(words: Words, { state, telescopes, nameOf }: StationSubject, index: number): FormRow {
  const form = formFields(words, state)
  const name = (part: string) => `stations.${index}.${part}`
  const label = (part: string) => ({ label: words.say(`page.station-${part}`) })
  const kinds = KINDS.map((kind) => ({ value: kind, text: words.say(`station.${kind}`) }))
  const chosen = state.values[name('telescopeId')]
  const offered = telescopes.filter(({ id, isPutAway }) => isPutAway !== true || id === chosen)
  const scopes = offered.map((one) => ({ value: one.id, text: nameOf(one) }))
  const telescope = telescopes.find(({ id }) => id === chosen)
  const suits = telescope && suitsText(words, rolesOf(telescope))
  return {
    title: words.say('page.station-row', { row: index + 1 }),
    fields: [
      form.text(name('name'), label('name')),
      form.choice(name('kind'), { ...label('kind'), fallback: 'telescope' }, kinds),
      form.choice(name('telescopeId'), { ...label('telescope'), ...(suits && { hint: suits }) }, [
        { value: '', text: words.say('page.station-no-telescope') },
        ...scopes,
      ]),
      form.text(name('operator'), label('operator')),
      form.tick(name('isForChildren'), label('children')),
    ],
  }
}
