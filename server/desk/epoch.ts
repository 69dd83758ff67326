import type { SettingStore } from '../../db/settings.ts'
import { newId } from './ids.ts'

const KEY = 'epoch'

/** The name of this run of mark numbers; a restored database gets another, so that phones take everything anew. */
export function epochOf(settings: SettingStore): string {
  const kept = settings.find(KEY)
  if (kept !== undefined) return kept
  const epoch = newId()
  settings.put(KEY, epoch)
  return epoch
}
