import type { SettingStore } from '../../db/settings.ts'
import { type GroupTextDesk, groupTextDesk } from '../../server/desk/group-text.ts'

/** Single values kept in memory. */
export function settingsInMemory(): SettingStore {
  const kept = new Map<string, string>()
  return { find: (key) => kept.get(key), put: (key, value) => void kept.set(key, value) }
}

/** Kept in memory. */
export const fakeGroupText = (): GroupTextDesk => groupTextDesk({ settings: settingsInMemory() })
