import type { Phone, PhoneRole } from '../../db/phones.ts'
import type { Clock } from '../clock.ts'
import { Fault, invalid, notFound } from '../errors.ts'
import { nightHours } from '../tours/hours.ts'
import type { Night } from '../tours/night.ts'
import { newId } from './ids.ts'
import { hashOf, isSameSecret, isScanned, type JoinCodes, joinCodes, newToken, plainCode } from './join-codes.ts'
import { type JoinLimits, joinTries } from './join-tries.ts'
import { type JoinWindows, joinWindows, type Pairing, type QuickWindow } from './join-windows.ts'
import type { Stores } from './stores.ts'

/** What a phone brings to be let in. */
export interface JoinAsk {
  /** The token of a QR code, the typed code, the four digits of a quick join, or the token that pairs the host's phone. */
  readonly secret: string
  readonly name: string
  readonly role: 'operator' | 'helper'
  /** What the phone's own clock says; null when it does not say. */
  readonly phoneMs: number | null
  readonly address: string
}

interface Joined {
  readonly token: string
  readonly phone: Phone
}

/** A phone as the board lists it. */
export interface PhoneNow extends Omit<Phone, 'tokenHash'> {
  /** Seconds since it last asked for anything; null when it has not since this start. */
  readonly silentSec: number | null
}

/** Letting phones in, and who they are. */
export interface JoinDesk {
  /** The codes of a night. */
  codes(nightId: string): JoinCodes
  /** Makes other codes; who is in stays in. */
  turn(nightId: string): void
  /** Lets a phone in; a forbidden Fault for a code that is none, a busy one for one that comes too soon. */
  join(ask: JoinAsk): Joined
  openWindow(nightId: string): QuickWindow
  /** The open window of a night, or null. */
  window(nightId: string): QuickWindow | null
  /** A token that pairs one phone as the host's, for ten minutes. */
  pair(nightId: string): string
  /** What waits for the host's phone, or null. */
  pairing(nightId: string): Pairing | null
  confirm(nightId: string, phoneId: string): void
  revoke(nightId: string, phoneId: string): void
  /** Where a phone stands from now on; null for one that roves. */
  stand(phone: Pick<Phone, 'id' | 'nightId'>, stationId: string | null): void
  phones(nightId: string): readonly PhoneNow[]
  /** True while the codes of a night let anyone in. */
  isJoinable(nightId: string): boolean
  /** The name of the network by whose address phones are sent here; null before the host has chosen one. */
  network(): string | null
  useNetwork(name: string): void
}

type Needs = Pick<Stores, 'phones' | 'nights' | 'settings'> & {
  readonly clock: Clock
  readonly secret: Buffer
  readonly limits: JoinLimits
  readonly heard: ReadonlyMap<string, number>
  /** The laptop's own time in milliseconds. */
  readonly nowMs: () => number
}

const SESSION_MS = 12 * 3_600_000
const LONGEST_NAME = 40
const NETWORK_KEY = 'phones-network'
/** Codes let phones in from a day and a half before the opening until six hours after the closing. */
const BEFORE_MS = 36 * 3_600_000
const AFTER_MS = 6 * 3_600_000

export function joinDesk(needs: Needs): JoinDesk {
  const { phones, nights, settings, secret, heard, nowMs, clock } = needs
  const windows = joinWindows(nowMs)
  const tries = joinTries(needs.limits, nowMs)
  const now = () => new Date(nowMs())

  function nightOf(id: string): Night {
    const night = nights.find(id)
    if (!night) throw notFound('night')
    return night
  }
  const sure = (id: string): string => nightOf(id).id
  const codes = (nightId: string): JoinCodes => joinCodes(secret, sure(nightId), phones.turnOf(nightId))
  const door = { ...needs, windows, tries, codes }

  return {
    codes,
    turn: (nightId) => phones.turnOn(sure(nightId)),
    join: (ask) => join(door, ask),
    openWindow: (nightId) => windows.openWindow(sure(nightId)),
    window: windows.window,
    pair: (nightId) => windows.pair(sure(nightId)),
    pairing: windows.pairing,
    confirm(nightId, phoneId) {
      if (!phones.confirm(nightId, phoneId)) throw notFound('phone')
    },
    revoke(nightId, phoneId) {
      if (!phones.revokeOne(nightId, phoneId, now())) throw notFound('phone')
    },
    stand({ id, nightId }, stationId) {
      const row = nights.find(nightId ?? '')?.stations ?? []
      if (stationId !== null && !row.some((station) => station.id === stationId)) throw notFound('station')
      phones.stand(id, stationId)
    },
    phones: (nightId) =>
      phones.ofNight(sure(nightId), now()).map(({ tokenHash: _hash, ...phone }) => {
        const heardMs = heard.get(phone.id)
        return { ...phone, silentSec: heardMs === undefined ? null : Math.max(0, nowMs() - heardMs) / 1000 }
      }),
    isJoinable: (nightId) => isJoinable(nightOf(nightId), clock.now()),
    network: () => settings.find(NETWORK_KEY) ?? null,
    useNetwork: (name) => settings.put(NETWORK_KEY, name),
  }
}

interface Door extends Needs {
  readonly windows: JoinWindows
  readonly tries: ReturnType<typeof joinTries>
  readonly codes: (nightId: string) => JoinCodes
}

interface Way {
  readonly nightId: string
  readonly role: PhoneRole
  /** Which of the ways in for one phone it is; null for the codes of the night. */
  readonly once: 'quick' | 'pairing' | null
}

function join(door: Door, ask: JoinAsk): Joined {
  const { phones, windows, tries, nowMs } = door
  // Who scans is never kept waiting, whatever others on the field guess or the same phone has mistyped.
  const isTyped = !isScanned(ask.secret)
  const waitMs = isTyped ? tries.waitMs(ask.address) : 0
  if (waitMs > 0) throw new Fault('busy', 'fault.too-many-codes', { seconds: Math.ceil(waitMs / 1000) })
  const name = ask.name.trim().slice(0, LONGEST_NAME)
  if (name === '') throw invalid([{ field: 'name', key: 'problem.required' }])
  const way = wayOf(door, ask)
  if (way === null) {
    if (isTyped) tries.wrong(ask.address)
    windows.wrong(plainCode(ask.secret))
    throw new Fault('forbidden', 'fault.wrong-code')
  }
  tries.right(ask.address)
  if (way.once !== null) windows.used(way.nightId, way.once)
  const token = newToken()
  const phone: Phone = {
    id: newId(),
    tokenHash: hashOf(token),
    role: way.role,
    name,
    nightId: way.nightId,
    stationId: null,
    isConfirmed: way.once !== 'quick',
    aheadSec: ask.phoneMs === null ? null : (ask.phoneMs - nowMs()) / 1000,
    madeAt: new Date(nowMs()),
    expiresAt: new Date(nowMs() + SESSION_MS),
  }
  phones.add(phone)
  return { token, phone }
}

/** What a secret opens; null for one that opens nothing. Every night is asked whatever the one before said, so that the time tells nothing. */
function wayOf({ nights, windows, codes, clock }: Door, { secret, role }: JoinAsk): Way | null {
  const typed = plainCode(secret)
  const ways = nights.all().flatMap((night): Way[] => {
    const { id: nightId } = night
    const { token, code } = codes(nightId)
    const found = [
      { isIt: isSameSecret(secret, token) || isSameSecret(typed, code), way: { nightId, role, once: null } },
      { isIt: windows.isPairing(nightId, secret), way: { nightId, role: 'host-phone', once: 'pairing' } },
      { isIt: windows.isQuick(nightId, typed), way: { nightId, role: 'operator', once: 'quick' } },
    ] as const
    return isJoinable(night, clock.now()) ? found.flatMap(({ isIt, way }) => (isIt ? [way] : [])) : []
  })
  return ways[0] ?? null
}

function isJoinable(night: Night, at: Date): boolean {
  const { opensAt, closesAt } = nightHours(night)
  const ms = at.getTime()
  return night.state !== 'off' && opensAt.getTime() - BEFORE_MS < ms && ms < closesAt.getTime() + AFTER_MS
}
