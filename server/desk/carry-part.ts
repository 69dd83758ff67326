import { Value } from 'typebox/value'

/** What a host may have changed here and there. */
export const CARRIED_PARTS = [
  'site',
  'site-notes',
  'telescopes',
  'things',
  'words',
  'title',
  'date',
  'hours',
  'settings',
  'visitors',
  'row',
  'wishes',
  'go',
  'checklist',
  'class-visit',
  'report',
  'state',
] as const
export type CarriedPart = (typeof CARRIED_PARTS)[number]

/** One part of a file: whether it is missing here or differs, and how it is put in the place of what is here. */
export interface Part {
  readonly name: CarriedPart
  stands(): 'new' | 'same' | 'differs'
  keep(): void
}

interface Kept<Value> {
  readonly name: CarriedPart
  readonly here: () => Value | undefined
  readonly there: Value
  readonly keep: (isHere: boolean) => void
}

export const part = <Matter>({ name, here, there, keep }: Kept<Matter>): Part => ({
  name,
  stands() {
    const kept = here()
    if (kept === undefined) return 'new'
    return Value.Equal(kept, there) ? 'same' : 'differs'
  },
  keep: () => keep(here() !== undefined),
})
