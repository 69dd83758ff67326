import { DEFAULT_SETTINGS, type NightDraft } from '../server/tours/night.ts'
import type { SiteDraft } from '../server/tours/site.ts'
import type { DemoEvening } from './evening.ts'
import { northTelescopes } from './north-telescopes.ts'

const site: SiteDraft = {
  name: 'Haldenmoos school field',
  latitudeDeg: 47.4,
  longitudeDeg: 8.6,
  heightM: 450,
  zone: 'Europe/Zurich',
  skyMag: 19.3,
  horizon: [
    { azimuthDeg: 0, altitudeDeg: 6, name: 'houses' },
    { azimuthDeg: 40, altitudeDeg: 7, name: 'houses' },
    { azimuthDeg: 80, altitudeDeg: 8, name: 'hedge' },
    { azimuthDeg: 94, altitudeDeg: 12, name: 'oak' },
    { azimuthDeg: 107, altitudeDeg: 12, name: 'oak' },
    { azimuthDeg: 118, altitudeDeg: 8, name: 'hedge' },
    { azimuthDeg: 150, altitudeDeg: 4, name: 'meadow' },
    { azimuthDeg: 210, altitudeDeg: 5, name: 'meadow' },
    { azimuthDeg: 235, altitudeDeg: 8, name: 'lime trees' },
    { azimuthDeg: 262, altitudeDeg: 10, name: 'lime trees' },
    { azimuthDeg: 277, altitudeDeg: 11, name: 'gym roof' },
    { azimuthDeg: 279, altitudeDeg: 22, name: 'gym roof' },
    { azimuthDeg: 305, altitudeDeg: 22, name: 'gym roof' },
    { azimuthDeg: 307, altitudeDeg: 12, name: 'school' },
    { azimuthDeg: 340, altitudeDeg: 8, name: 'school' },
  ],
  glow: [{ fromDeg: 280, toDeg: 350, brighterMag: 0.8 }],
}

/** Ninety people come in all; the families come first and leave first. */
const night: NightDraft = {
  title: 'Winter stars for the school',
  siteId: 'site',
  date: '2026-12-17',
  opens: '18:00',
  closes: '21:00',
  visitors: [
    { startsAt: '18:00', adults: 18, children: 26, seated: 2 },
    { startsAt: '18:30', adults: 22, children: 28, seated: 3 },
    { startsAt: '19:00', adults: 26, children: 18, seated: 3 },
    { startsAt: '19:30', adults: 28, children: 8, seated: 2 },
    { startsAt: '20:00', adults: 24, children: 2, seated: 2 },
    { startsAt: '20:30', adults: 16, children: 0, seated: 1 },
  ],
  stations: [
    { name: 'Low refractor', kind: 'telescope', telescopeId: '0', operator: 'Mirela', isForChildren: true },
    { name: 'Driven reflector', kind: 'telescope', telescopeId: '1', operator: 'Jonas', isForChildren: false },
    { name: 'Big reflector', kind: 'telescope', telescopeId: '2', operator: 'Adaeze', isForChildren: false },
    { name: 'Twin tubes', kind: 'telescope', telescopeId: '3', operator: 'Pirkko', isForChildren: false },
  ],
  settings: DEFAULT_SETTINGS,
}

/** The northern demo night: first-quarter Moon and Saturn in the south, a school field with trees and a gym. */
export const north: DemoEvening = { site, telescopes: northTelescopes, night, rehearsesFrom: '18:20' }
