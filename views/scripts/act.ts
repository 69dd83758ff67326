// Reads the act out of a form.
/** Fields that every form of an act has beside what the act carries. */
const OF_THE_FORM: ReadonlySet<string> = new Set(['key', 'kind', 'stationId', 'back'])
/** What acts carry as numbers. */
const NUMBERS: ReadonlySet<string> = new Set(['adults', 'children', 'people', 'seconds', 'minutes'])
/** What they carry as lists. */
const LISTS: ReadonlySet<string> = new Set(['shut'])

interface FormAct {
  readonly kind: string
  /** The station that the form names, null where it names none; undefined where it leaves that to the page. */
  readonly stationId: string | null | undefined
  readonly payload: Readonly<Record<string, unknown>>
}

/** What a form means by leaving fields blank. */
const UNSAID: Readonly<Record<string, object>> = {
  clouds: { shut: [], minutes: null },
  counted: { adults: 0, children: 0 },
}

/** The act that a form says by its fields: the same that the laptop reads out of the form when it comes without scripts. */
export function actOf(fields: Iterable<readonly [string, string]>): FormAct {
  const all = new Map<string, string[]>()
  for (const [name, value] of fields) all.set(name, [...(all.get(name) ?? []), value])
  const kind = all.get('kind')?.at(-1) ?? ''
  const station = all.get('stationId')?.at(-1)
  const carried = [...all].flatMap(([name, values]) => {
    const told = OF_THE_FORM.has(name) ? [] : values.filter((value) => value.trim() !== '')
    return told.length > 0 ? [[name, typed(name, told)] as const] : []
  })
  return {
    kind,
    stationId: station === undefined ? undefined : station || null,
    payload: { ...UNSAID[kind], ...Object.fromEntries(carried) },
  }
}

function typed(name: string, values: readonly string[]): unknown {
  if (LISTS.has(name)) return values
  const last = values.at(-1) ?? ''
  return NUMBERS.has(name) ? Number(last.trim().replace('−', '-')) : last
}
