import { type JoinCodes, spacedCode } from '../../desk/join-codes.ts'
import type { Pairing, QuickWindow } from '../../desk/join-windows.ts'
import { qrCode } from '../../drawings/qr-code.ts'
import type { Svg } from '../../drawings/svg.ts'
import type { Words } from '../../words/words.ts'
import { originOf, type PhoneAddress } from '../addresses.ts'
import type { PhonesAct } from './phones-list.ts'

/** A picture to scan, with the address that it leads to as text: without what lets in. */
export interface ScanCode {
  readonly drawing: Svg
  /** In the pieces between which a line may end. */
  readonly address: readonly string[]
}

export interface JoinWay extends ScanCode {
  readonly network: string
  /** Puts this network first from now on; null for the one that is. */
  readonly use: PhonesAct | null
}

export interface QuickWay {
  readonly digits: string
  readonly left: readonly string[]
}

export interface PairWay extends ScanCode {
  readonly text: string
}

/** Where the row stands for visitors, on the laptop itself or behind its address. */
const tonightPath = (nightId: string): string => `/tonight/${nightId}`

/** A picture that leads to a page; `token` stands behind the `#`, which browsers keep to themselves. */
export function scanCode(words: Words, address: string, token: string | null): ScanCode {
  const label = words.say('phones.qr', { address })
  return { drawing: qrCode(token === null ? address : `${address}#${token}`, label), address: piecesOf(address) }
}

/** An address after each of its slashes and dots. */
const piecesOf = (address: string): readonly string[] => address.split(/(?<=[/.])(?!\/)/)

export const joinCode = (words: Words, address: PhoneAddress, port: number, token: string): ScanCode =>
  scanCode(words, `${originOf(address, port)}/join`, token)

export const visitorsCode = (words: Words, address: PhoneAddress, port: number, nightId: string): ScanCode =>
  scanCode(words, `${originOf(address, port)}${tonightPath(nightId)}`, null)

interface WaysSubject {
  readonly addresses: readonly PhoneAddress[]
  readonly port: number
  readonly codes: JoinCodes
}

/** Every address by which phones may come, the chosen one first. */
export const joinWays = (words: Words, { addresses, port, codes }: WaysSubject): JoinWay[] =>
  addresses.map((address, place) => ({
    ...joinCode(words, address, port, codes.token),
    network: words.say('phones.network', { name: address.network }),
    use: place === 0 ? null : { act: 'network', text: words.say('phones.use'), value: address.network, isQuiet: true },
  }))

export const codeText = ({ code }: JoinCodes): string => spacedCode(code)

export const quickWay = (words: Words, window: QuickWindow | null): QuickWay | null =>
  window && {
    digits: window.digits,
    left: [
      words.say('phones.quick-seconds', { count: window.secondsLeft }),
      words.say('phones.quick-tries', { count: window.triesLeft }),
    ],
  }

/** The picture for the host's own phone, by the first address. */
export function pairWay(words: Words, { addresses, port }: WaysSubject, pairing: Pairing | null): PairWay | null {
  const [first] = addresses
  if (!pairing || !first) return null
  const { drawing, address } = scanCode(words, `${originOf(first, port)}/join?as=host`, pairing.token)
  return { drawing, address, text: words.say('phones.pair-open', { count: Math.ceil(pairing.secondsLeft / 60) }) }
}
