import { Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { type GoValues, READING_KINDS } from './go-judge.ts'
import { schemaProblems } from './schema-problems.ts'

const yesOrNo = Type.Optional(Type.Integer({ minimum: 0, maximum: 1 }))

/** What the air can be like: cloud in per cent, wind in km/h, air as an index, temperature in Celsius. */
const Values = Type.Object({
  cloud: Type.Optional(Type.Number({ minimum: 0, maximum: 100 })),
  wind: Type.Optional(Type.Number({ minimum: 0, maximum: 250 })),
  gust: Type.Optional(Type.Number({ minimum: 0, maximum: 250 })),
  air: Type.Optional(Type.Number({ minimum: 0, maximum: 1000 })),
  temperature: Type.Optional(Type.Number({ minimum: -70, maximum: 60 })),
  rain: yesOrNo,
  thunder: yesOrNo,
})

/** What is wrong with values as typed in; an entry without any is told at its first. */
export function goValueProblems(values: GoValues): Problem[] {
  if (!Value.Check(Values, values)) {
    return schemaProblems(Value.Errors(Values, values), Values).map((problem) =>
      problem.field === 'wind' || problem.field === 'gust' || problem.field === 'temperature'
        ? { field: problem.field, key: `problem.go-${problem.field === 'temperature' ? 'temperature' : 'speed'}` }
        : problem,
    )
  }
  const { wind, gust } = values
  if (wind !== undefined && gust !== undefined && gust < wind) return [{ field: 'gust', key: 'problem.go-gust' }]
  return READING_KINDS.some((kind) => values[kind] !== undefined) ? [] : [{ field: 'cloud', key: 'problem.go-nothing' }]
}
