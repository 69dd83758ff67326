import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { schemaProblems } from './schema-problems.ts'

/** From where on a value is doubtful, and from where on the night is off. */
const limit = (minimum: number, maximum: number) =>
  Type.Object({ doubtful: Type.Number({ minimum, maximum }), off: Type.Number({ minimum, maximum }) })

/** What a host stands for, the same on all nights: cloud in per cent of the sky, wind in km/h, air as an index, temperature in Celsius. */
export const GoLimits = Type.Object({
  /** On a night for faint things. */
  cloud: limit(1, 100),
  /** On a night for Moon and planets, which shine through more. */
  moonCloud: limit(1, 100),
  wind: limit(1, 200),
  gust: limit(1, 200),
  air: limit(1, 500),
  /** The lowest that people stand. */
  temperature: limit(-60, 40),
  /** What rain makes of a night; thunder always ends it. */
  rain: Type.Union([Type.Literal('off'), Type.Literal('doubtful')]),
})
export type GoLimits = Static<typeof GoLimits>

export const LIMIT_NAMES = ['cloud', 'moonCloud', 'wind', 'gust', 'air', 'temperature'] as const
export type LimitName = (typeof LIMIT_NAMES)[number]

/**
 * One valley club's published policy where it has a figure: off at 50 to 70 per cent of cloud, a sustained wind of 15 to
 * 18 mph, an air-quality index of 110, and Moon and planets stand more cloud. Its ranges are read as doubtful from the
 * first figure and off from the second, but for faint things, which are off at the first. Gusts, temperature, rain, and
 * where faint things and the air become doubtful are our choice.
 */
export const SHIPPED_LIMITS: GoLimits = {
  cloud: { doubtful: 30, off: 50 },
  moonCloud: { doubtful: 50, off: 70 },
  wind: { doubtful: 24, off: 29 },
  gust: { doubtful: 35, off: 45 },
  air: { doubtful: 80, off: 110 },
  temperature: { doubtful: -2, off: -10 },
  rain: 'off',
}

/** What is wrong with limits as typed in; [] when they can be kept. */
export function goLimitProblems(draft: unknown): Problem[] {
  if (!Value.Check(GoLimits, draft)) return schemaProblems(Value.Errors(GoLimits, draft), GoLimits)
  return LIMIT_NAMES.filter((name) => !isInOrder(draft, name)).map((name) => ({
    field: `${name}.doubtful`,
    key: name === 'temperature' ? 'problem.go-order-cold' : 'problem.go-order',
  }))
}

const isInOrder = (limits: GoLimits, name: LimitName): boolean => {
  const { doubtful, off } = limits[name]
  return name === 'temperature' ? doubtful >= off : doubtful <= off
}
