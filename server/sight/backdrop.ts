import type { Dazzle } from './chance.ts'
import type { Conditions } from './conditions.ts'
import { type Air, airAt } from './limit.ts'
import { dazzleMag } from './moon.ts'
import { type SkyGeometry, skyCd } from './sky-brightness.ts'

/** What one place of the sky at one moment is to every tube and eyepiece: its light in cd/m^2, its air, and how dazzled the visitors come to it. */
export interface Backdrop {
  readonly skyCd: number
  readonly air: Air
  readonly dazzle: Dazzle
}

/** How far the visitors at one moment are dazzled: the share who looked at the Moon, and what they lost. */
export const dazzleOf = ({ moon }: SkyGeometry, { moonGazerShare }: Conditions): Dazzle => ({
  share: moonGazerShare,
  lostMag: moonGazerShare === 0 ? 0 : dazzleMag(moon),
})

/** Reckons a place of the sky once for all the views of it. */
export const backdropOf = (geometry: SkyGeometry, conditions: Conditions): Backdrop => ({
  skyCd: skyCd(geometry, conditions),
  air: airAt(geometry.altitudeDeg, conditions),
  dazzle: dazzleOf(geometry, conditions),
})
