import type { Site } from './site.ts'

const OPEN = { name: '', longitudeDeg: 0, heightM: 0, zone: 'UTC', skyMag: 19.5, horizon: [], glow: [] } as const

/** Two places that nobody wrote, for a list while there is no site yet: level ground under a suburban sky. */
export const PLAIN_SITES: readonly Site[] = [
  { ...OPEN, horizon: [], glow: [], id: 'north', latitudeDeg: 45 },
  { ...OPEN, horizon: [], glow: [], id: 'south', latitudeDeg: -35 },
]

/** True for one of the two. */
export const isPlainSite = ({ id }: Pick<Site, 'id'>): boolean => PLAIN_SITES.some((site) => site.id === id)
