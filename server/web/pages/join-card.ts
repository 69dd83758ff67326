import type { JoinCodes } from '../../desk/join-codes.ts'
import type { Night } from '../../tours/night.ts'
import type { PhoneAddress } from '../addresses.ts'
import type { PaperLook, PapersPage, PrintedPiece } from './paper.ts'
import { paperFrame } from './paper-frame.ts'
import { codeText, joinCode, type ScanCode, visitorsCode } from './phones-ways.ts'
import type { Viewer } from './sheet.ts'

/** One page of the card: a picture to scan, its address, and what to do. */
interface CardPart extends ScanCode {
  readonly title: string
  /** The code to type; null where none is needed. */
  readonly code: string | null
  readonly steps: readonly string[]
  readonly phoneLabel: string
  /** How to make the phone ready; [] for visitors. */
  readonly phone: readonly string[]
}

export interface JoinCard {
  readonly title: string
  readonly subtitle: string
  readonly wifiLabel: string
  readonly passwordLabel: string
  /** For those who help, then for visitors; [] while the laptop is on no network. */
  readonly parts: readonly CardPart[]
  readonly noneText: string
}

export interface JoinCardSubject {
  readonly night: Night
  /** Where phones find the laptop, the chosen one first. */
  readonly addresses: readonly PhoneAddress[]
  readonly port: number
  readonly codes: JoinCodes
}

const STEPS = ['wifi', 'scan', 'name'] as const
const PHONE = ['lock', 'brightness', 'red', 'notes', 'net'] as const

/** The card on a paper. */
export const joinCardPage = (viewer: Viewer, subject: JoinCardSubject, look: PaperLook): PapersPage => ({
  ...paperFrame(viewer, {
    night: subject.night,
    name: 'join-card',
    title: viewer.words.say('print.join-card'),
    look,
  }),
  pieces: [joinPiece(viewer, subject)],
})

export const joinPiece = (viewer: Viewer, subject: JoinCardSubject): PrintedPiece<JoinCard> => ({
  partial: 'join-card',
  model: joinCard(viewer, subject),
})

/** The card by which helpers join and make their phones ready, and one for visitors. */
function joinCard(viewer: Viewer, subject: JoinCardSubject): JoinCard {
  const { words } = viewer
  const { night, addresses, port, codes } = subject
  const [first] = addresses
  return {
    title: words.say('print.join-card'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    wifiLabel: words.say('print.join-wifi'),
    passwordLabel: words.say('print.join-password'),
    parts: first ? [helpersPart(viewer, first, port, codes), visitorsPart(viewer, first, port, night)] : [],
    noneText: words.say('print.join-none'),
  }
}

const helpersPart = ({ words }: Viewer, address: PhoneAddress, port: number, codes: JoinCodes): CardPart => ({
  ...joinCode(words, address, port, codes.token),
  title: words.say('print.join-title'),
  code: words.say('print.join-code', { code: codeText(codes) }),
  steps: STEPS.map((step) => words.say(`print.join-step-${step}`)),
  phoneLabel: words.say('print.join-phone'),
  phone: PHONE.map((part) => words.say(`print.join-phone-${part}`)),
})

const visitorsPart = ({ words }: Viewer, address: PhoneAddress, port: number, night: Night): CardPart => ({
  ...visitorsCode(words, address, port, night.id),
  title: words.say('print.join-visitors-title'),
  code: null,
  steps: [words.say('print.join-visitors-scan'), words.say('print.join-visitors-dark')],
  phoneLabel: '',
  phone: [],
})
