import type { Problem } from '../../errors.ts'

const CLOCKS = ['opens', 'closes', 'settings.schoolClass.startsAt', 'settings.schoolClass.endsAt']
const UNREAD = ['problem.pattern', 'problem.too-short', 'problem.required']

/** The problems of a night in the words of its form, one a field. */
export function nightFormProblems(problems: readonly Problem[]): readonly Problem[] {
  const said = problems.map(inFormWords)
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
