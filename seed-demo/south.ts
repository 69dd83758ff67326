import { DEFAULT_SETTINGS, type NightDraft } from '../server/tours/night.ts'
import type { SiteDraft } from '../server/tours/site.ts'
import type { DemoEvening } from './evening.ts'
import { northTelescopes } from './north-telescopes.ts'

const site: SiteDraft = {
  name: 'Tarrabindi oval',
  latitudeDeg: -34,
  longitudeDeg: 150,
  heightM: 420,
  zone: 'Australia/Sydney',
  skyMag: 20.4,
  horizon: [
    { azimuthDeg: 0, altitudeDeg: 4, name: 'paddock' },
    { azimuthDeg: 60, altitudeDeg: 7, name: 'gum trees' },
    { azimuthDeg: 100, altitudeDeg: 14, name: 'gum trees' },
    { azimuthDeg: 125, altitudeDeg: 6, name: 'paddock' },
    { azimuthDeg: 200, altitudeDeg: 5, name: 'paddock' },
    { azimuthDeg: 235, altitudeDeg: 9, name: 'clubhouse' },
    { azimuthDeg: 260, altitudeDeg: 9, name: 'clubhouse' },
    { azimuthDeg: 285, altitudeDeg: 6, name: 'fence' },
    { azimuthDeg: 320, altitudeDeg: 5, name: 'fence' },
  ],
  glow: [{ fromDeg: 70, toDeg: 130, brighterMag: 0.5 }],
}

const night: NightDraft = {
  title: 'Southern winter at the oval',
  siteId: 'site',
  date: '2027-07-10',
  opens: '18:00',
  closes: '21:00',
  visitors: [
    { startsAt: '18:00', adults: 16, children: 20, seated: 1 },
    { startsAt: '18:30', adults: 20, children: 22, seated: 2 },
    { startsAt: '19:00', adults: 22, children: 14, seated: 2 },
    { startsAt: '19:30', adults: 22, children: 6, seated: 2 },
    { startsAt: '20:00', adults: 18, children: 2, seated: 1 },
    { startsAt: '20:30', adults: 12, children: 0, seated: 1 },
  ],
  stations: [
    { name: 'Low refractor', kind: 'telescope', telescopeId: '0', operator: 'Tamsin', isForChildren: true },
    { name: 'Driven reflector', kind: 'telescope', telescopeId: '1', operator: 'Keoni', isForChildren: false },
    { name: 'Big reflector', kind: 'telescope', telescopeId: '2', operator: 'Ruvimbo', isForChildren: false },
  ],
  settings: DEFAULT_SETTINGS,
}

/** The southern demo night: first-quarter Moon high in the north, Jupiter sinking, Omega Centauri high. */
export const south: DemoEvening = { site, telescopes: northTelescopes.slice(0, 3), night, rehearsesFrom: '18:20' }
