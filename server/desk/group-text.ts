import type { SettingStore } from '../../db/settings.ts'
import { invalid } from '../errors.ts'

/** How visitors find the group again, in the host's own words; '' until somebody has said it. */
export interface GroupTextDesk {
  find(): string
  /** Keeps the text for every night, '' for none; an invalid Fault for a longer one than the handout has room for. */
  put(text: string): void
}

const KEY = 'group-text'
/** So much stands in a column of the handout. */
export const MOST_LETTERS = 140

export const groupTextDesk = ({ settings }: { readonly settings: SettingStore }): GroupTextDesk => ({
  find: () => settings.find(KEY) ?? '',
  put(text) {
    const plain = text.trim().replace(/\s+/g, ' ')
    if (plain.length > MOST_LETTERS)
      throw invalid([{ field: 'group', key: 'problem.too-long', values: { maximum: MOST_LETTERS } }])
    settings.put(KEY, plain)
  },
})
