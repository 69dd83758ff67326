import { FAULT_STAGES, type FaultThing } from '../../tours/faults.ts'
import { wallClock } from '../../tours/hours.ts'
import type { Words } from '../../words/words.ts'
import type { FaultsSubject } from './faults.ts'
import { faultsHref } from './set-up-href.ts'

interface Choice {
  readonly value: string
  readonly text: string
  readonly isChosen: boolean
}

interface Asked<Part> {
  readonly name: string
  readonly label: string
  readonly problem: string | null
  readonly choices: readonly Part[]
}

type Choices = Asked<Choice>
type Groups = Asked<{ readonly label: string; readonly choices: readonly Choice[] }>

export interface FaultForm {
  readonly action: string
  readonly look: 'day' | 'lamp'
  readonly timeLabel: string
  readonly time: string
  readonly stage: Choices
  readonly starsLabel: string
  readonly stars: readonly Choices[]
  readonly aimed: Groups
  readonly seen: Choices
  readonly offHint: string
  readonly unit: Choices
  readonly off: readonly {
    readonly name: string
    readonly label: string
    readonly value: string
    readonly way: Choices
  }[]
  readonly offProblem: string | null
  readonly submit: string
}

const SEEN = ['off', 'lost', 'refused', 'finder'] as const
const UNITS = ['degrees', 'fists'] as const
const OFF = [
  { name: 'side', wayName: 'sideway', ways: ['left', 'right'] },
  { name: 'height', wayName: 'heightway', ways: ['higher', 'lower'] },
] as const
/** Fainter stars are not set up on. */
const FAINTEST_MAG = 2.5

/** The form of the finder of faults, with what was typed and what is wrong with it. */
export function faultForm(words: Words, subject: FaultsSubject): FaultForm {
  const { night, at, look, values } = subject
  const { asked, choose } = asker(words, subject)
  const lists = thingLists(words, subject)
  return {
    action: `${faultsHref(night)}#answer`,
    look,
    timeLabel: words.say('faults.time'),
    time: wallClock(at, night.site.zone),
    stage: choose('stage', FAULT_STAGES),
    starsLabel: words.say('faults.stars'),
    stars: ['first', 'second'].map((name) => ({
      ...asked(name),
      choices: [{ value: '', text: words.say('faults.choose'), isChosen: false }, ...lists.stars(name)],
    })),
    aimed: {
      ...asked('aimed'),
      choices: [
        { label: words.say('faults.group-bodies'), choices: lists.bodies('aimed') },
        { label: words.say('faults.group-stars'), choices: lists.stars('aimed') },
        { label: words.say('faults.group-targets'), choices: lists.targets('aimed') },
      ].filter(({ choices }) => choices.length > 0),
    },
    seen: choose('seen', SEEN),
    offHint: words.say('faults.off-hint'),
    unit: choose('unit', UNITS, 'degrees'),
    off: OFF.map(({ name, wayName, ways }) => ({
      name,
      label: words.say(`faults.${name}`),
      value: values[name] ?? '',
      way: choose(wayName, ways, ways[0]),
    })),
    offProblem: asked('side').problem,
    submit: words.say('faults.find'),
  }
}

/** Makes the parts of the form by their names. */
function asker(words: Words, { values, problems }: FaultsSubject) {
  const asked = (name: string): Omit<Choices, 'choices'> => {
    const found = problems.find(({ field }) => field === name)
    return { name, label: words.say(`faults.${name}`), problem: found ? words.say(found.key, found.values) : null }
  }
  const choose = (name: string, all: readonly string[], fallback = ''): Choices => ({
    ...asked(name),
    choices: all.map((value) => ({
      value,
      text: words.say(`faults.${name}-${value}`),
      isChosen: value === (values[name] ?? fallback),
    })),
  })
  return { asked, choose }
}

function thingLists(words: Words, { values, finding }: FaultsSubject) {
  const { bodies, stars, targets } = finding.things
  const bright = stars.filter(({ magnitude }) => magnitude <= FAINTEST_MAG)
  const list =
    (things: readonly FaultThing[]) =>
    (field: string): readonly Choice[] =>
      things.map(({ key, name }) => ({ value: key, text: words.called(name), isChosen: values[field] === key }))
  const starsOf = list(bright)
  return {
    bodies: list(bodies),
    stars: (field: string) => starsOf(field).toSorted((a, b) => a.text.localeCompare(b.text, words.settings.language)),
    targets: list(targets),
  }
}
