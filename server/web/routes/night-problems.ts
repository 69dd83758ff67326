import type { Problem } from '../../errors.ts'

const CLASS = 'settings.schoolClass'
const CLOCKS = ['opens', 'closes', `${CLASS}.startsAt`, `${CLASS}.endsAt`]
const UNREAD = ['problem.pattern', 'problem.too-short', 'problem.required']

/** The problems of a night in the words of its form, one a field; what a class lacks is told at its fields alone. */
export function nightFormProblems(problems: readonly Problem[]): readonly Problem[] {
  const said = problems.filter(({ field }) => field !== CLASS).map(inFormWords)
  return said.filter(({ field }, i) => said.findIndex((other) => other.field === field) === i)
}

function inFormWords(problem: Problem): Problem {
  const { field, key } = problem
  if (field === 'siteId') return { field, key: 'problem.site-unknown' }
  if (field === 'stations' && key === 'problem.too-few') return { field, key: 'problem.no-station' }
  if (!UNREAD.includes(key)) return problem
  if (field === 'date') return { field, key: 'problem.night-date' }
  return CLOCKS.includes(field) ? { field, key: 'problem.go-clock' } : problem
}
