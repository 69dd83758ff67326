import { Type } from 'typebox'
import { Value } from 'typebox/value'
import type { SettingStore } from '../../db/settings.ts'
import { UNITS, type WordsSettings } from '../words/words.ts'

/** In which language, units and clock those read who have chosen nothing themselves. */
export interface ReadingDesk {
  usual(): WordsSettings
  /** Keeps what the host has chosen for everybody else. */
  use(settings: WordsSettings): void
}

const KEY = 'reading'
const FIRST_READING: WordsSettings = { language: 'en', hours12: false, units: 'metric' }
const Kept = Type.Object({
  language: Type.String({ minLength: 2 }),
  hours12: Type.Boolean(),
  units: Type.Union(UNITS.map((units) => Type.Literal(units))),
})

export function readingDesk({ settings }: { readonly settings: SettingStore }): ReadingDesk {
  let usual = usualIn(settings)
  return {
    usual: () => usual,
    use(chosen) {
      settings.put(KEY, JSON.stringify(chosen))
      usual = chosen
    },
  }
}

function usualIn(settings: SettingStore): WordsSettings {
  const kept: unknown = JSON.parse(settings.find(KEY) ?? 'null')
  return Value.Check(Kept, kept) ? kept : FIRST_READING
}
