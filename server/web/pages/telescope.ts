import type { Night } from '../../tours/night.ts'
import { eyepieceRange, rolesOf } from '../../tours/roles.ts'
import { showsOf } from '../../tours/shows.ts'
import type { Site } from '../../tours/site.ts'
import type { Telescope } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { noteText } from './kit-note.ts'
import { type Uses, usesOf } from './lists.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import { skyChoice, skyField } from './sky-choice.ts'
import { nightsWith } from './telescope-names.ts'
import { type ShowsPart, showsPart } from './telescope-shows.ts'
import { finderText, roleText } from './telescope-text.ts'
import { telescopeLines } from './telescopes.ts'

export interface TelescopePage {
  readonly sheet: Sheet
  readonly title: string
  /** Says that it is put away; null while it is in use. */
  readonly away: string | null
  readonly facts: readonly string[]
  readonly note: string | null
  readonly uses: Uses
  readonly putAway: { readonly action: string; readonly text: string; readonly hint: string } | null
  readonly rolesTitle: string
  readonly roles: readonly string[]
  readonly shows: ShowsPart
  readonly back: string
}

interface TelescopeSubject {
  readonly telescope: Telescope
  readonly nights: readonly Night[]
  readonly sites: readonly Site[]
  /** The sky that was asked for, as `skyChoice` names it. */
  readonly sky: string | undefined
}

/** One telescope of the kit: what it is, whom it suits, and what it shows under a chosen sky. */
export function telescopePage(viewer: Viewer, { telescope, nights, sites, sky }: TelescopeSubject): TelescopePage {
  const { words } = viewer
  const { id, note, isPutAway } = telescope
  const name = viewer.telescopeName(telescope)
  return {
    sheet: daySheet(viewer, name, 'telescopes'),
    title: name,
    away: isPutAway === true ? words.say('kit.away') : null,
    facts: factTexts(words, telescope),
    note: noteText(words, note),
    uses: usesOf(viewer, nightsWith(nights, telescope), `/telescopes/${id}`, name),
    putAway: viewer.mayHost ? putAway(words, telescope) : null,
    rolesTitle: words.say('kit.roles'),
    roles: rolesOf(telescope).map((role) => roleText(words, role)),
    shows: showing(viewer, { telescope, nights, sites, sky }),
    back: words.say('kit.all'),
  }
}

function showing(viewer: Viewer, { telescope, nights, sites, sky }: TelescopeSubject): ShowsPart {
  const { words } = viewer
  const choice = skyChoice(viewer, { sites, nights, telescopeId: telescope.id, asked: sky })
  return showsPart(words, {
    shows: showsOf(telescope, choice.chosen.conditions),
    sky: choice.chosen.said,
    choose: {
      action: `/telescopes/${telescope.id}`,
      field: skyField(words, choice, { values: {}, problems: [] }),
      button: words.say('kit.sky-button'),
    },
  })
}

function factTexts(words: Words, telescope: Telescope): string[] {
  const { mount, tubes, eyepieces, factors, reach } = telescopeLines(words, telescope)
  const { lowCm, highCm } = eyepieceRange(telescope)
  const height = words.say('kit.eyepiece-height', {
    low: words.length(lowCm, 'centimeter'),
    high: words.length(highCm, 'centimeter'),
  })
  const { inKitSince, finder } = telescope
  const since = inKitSince === undefined ? null : words.say('kit.since', { year: String(inKitSince) })
  return [...tubes, mount, eyepieces, factors, finderText(words, finder), reach, height, since].filter(
    (text) => text !== null,
  )
}

const putAway = (words: Words, { id, isPutAway }: Telescope): TelescopePage['putAway'] =>
  isPutAway === true
    ? { action: `/telescopes/${id}/take-out`, text: words.say('kit.take-out'), hint: words.say('kit.take-out-hint') }
    : { action: `/telescopes/${id}/put-away`, text: words.say('kit.put-away'), hint: words.say('kit.put-away-hint') }
