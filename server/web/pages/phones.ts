import type { JoinCodes } from '../../desk/join-codes.ts'
import type { Pairing, QuickWindow } from '../../desk/join-windows.ts'
import type { Night } from '../../tours/night.ts'
import type { PhoneAddress } from '../addresses.ts'
import { nightSheet } from './night-links.ts'
import { type HealthLine, type HealthSubject, healthLines } from './phones-health.ts'
import { type PhoneLine, type PhonesAct, phoneLines } from './phones-list.ts'
import {
  codeText,
  type JoinWay,
  joinWays,
  type PairWay,
  pairWay,
  type QuickWay,
  quickWay,
  type ScanCode,
  visitorsCode,
} from './phones-ways.ts'
import type { Sheet, Viewer } from './sheet.ts'

/** One part of the page that is a heading, a word on what it is for, and a button. */
interface Offer {
  readonly title: string
  readonly hint: string
  readonly act: PhonesAct
}

export interface PhonesPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly action: string
  readonly waitingLabel: string
  readonly waiting: readonly PhoneLine[]
  readonly waysLabel: string
  /** Why no phone can come now, each in a sentence; [] when phones can. */
  readonly obstacles: readonly string[]
  /** What to type to start so that phones are answered; null when they are. */
  readonly command: string | null
  readonly waysHint: string
  readonly codeLabel: string
  readonly code: string
  readonly ways: readonly JoinWay[]
  readonly ifNothing: string
  readonly quick: Offer & { readonly open: QuickWay | null }
  readonly turn: Offer
  readonly pair: Offer & { readonly open: PairWay | null }
  readonly listLabel: string
  readonly phones: readonly PhoneLine[]
  readonly noneText: string
  readonly healthLabel: string
  readonly health: readonly HealthLine[]
  readonly visitorsLabel: string
  readonly visitorsHint: string
  readonly visitors: ScanCode | null
  readonly card: { readonly href: string; readonly text: string }
}

export interface PhonesSubject extends HealthSubject {
  readonly night: Night
  readonly hasTour: boolean
  /** Where phones find the laptop, the chosen one first. */
  readonly addresses: readonly PhoneAddress[]
  /** True when the laptop answers others than itself. */
  readonly isOpen: boolean
  readonly port: number
  readonly codes: JoinCodes
  readonly isJoinable: boolean
  readonly window: QuickWindow | null
  readonly pairing: Pairing | null
}

const START = 'npm start -- --lan'

/** The host's page of the phones: how they come in, who is in, and how the evening stands. */
export function phonesPage(viewer: Viewer, subject: PhonesSubject): PhonesPage {
  const { words } = viewer
  const { night, phones, isOpen } = subject
  return {
    sheet: phonesSheet(viewer, subject),
    nightTitle: night.title,
    title: words.say('phones.title'),
    action: `/nights/${night.id}/phones`,
    waitingLabel: words.say('phones.waiting'),
    waiting: phoneLines(
      words,
      night,
      phones.filter(({ isConfirmed }) => !isConfirmed),
    ),
    obstacles: obstacles(viewer, subject),
    command: isOpen ? null : START,
    ...waysPart(viewer, subject),
    ...offers(viewer, subject),
    listLabel: words.say('phones.list'),
    phones: phoneLines(
      words,
      night,
      phones.filter(({ isConfirmed }) => isConfirmed),
    ),
    noneText: words.say('phones.none'),
    healthLabel: words.say('phones.health'),
    health: healthLines(words, subject),
    card: { href: `/nights/${night.id}/print/join-card`, text: words.say('phones.card') },
  }
}

function phonesSheet(viewer: Viewer, { night, hasTour }: PhonesSubject): Sheet {
  const title = viewer.words.say('phones.of', { title: night.title })
  const sheet = nightSheet(viewer, title, { night, hasTour, here: 'phones' })
  return { ...sheet, styles: [...sheet.styles, 'phones.css'] }
}

function obstacles({ words }: Viewer, { isOpen, addresses, isJoinable }: PhonesSubject): string[] {
  const found = [
    ...(isJoinable ? [] : ['phones.not-yet']),
    ...(isOpen && addresses.length === 0 ? ['phones.no-network'] : []),
    // Last, since the command follows it.
    ...(isOpen ? [] : ['phones.closed']),
  ]
  return found.map((key) => words.say(key))
}

function waysPart({ words }: Viewer, subject: PhonesSubject) {
  const { night, addresses, port, codes } = subject
  const [first] = addresses
  return {
    waysLabel: words.say('phones.ways'),
    waysHint: words.say('phones.ways-hint'),
    codeLabel: words.say('phones.code'),
    code: codeText(codes),
    ways: joinWays(words, subject),
    ifNothing: words.say('phones.if-nothing'),
    visitorsLabel: words.say('phones.visitors'),
    visitorsHint: words.say('phones.visitors-hint'),
    visitors: first ? visitorsCode(words, first, port, night.id) : null,
  }
}

function offers({ words }: Viewer, subject: PhonesSubject) {
  const offer = (name: string, act: string): Offer => ({
    title: words.say(`phones.${name}`),
    hint: words.say(`phones.${name}-hint`),
    act: { act, text: words.say(`phones.${name}-act`), value: '', isQuiet: true },
  })
  return {
    quick: { ...offer('quick', 'window'), open: quickWay(words, subject.window) },
    turn: offer('turn', 'turn'),
    pair: { ...offer('pair', 'pair'), open: pairWay(words, subject, subject.pairing) },
  }
}
