import { type GroupTextDesk, groupTextDesk } from '../../server/desk/group-text.ts'

/** Kept in memory. */
export function fakeGroupText(): GroupTextDesk {
  const kept = new Map<string, string>()
  return groupTextDesk({ settings: { find: (key) => kept.get(key), put: (key, value) => void kept.set(key, value) } })
}
