/** What no page may say on any night. */
const NEVER: Readonly<Record<string, RegExp>> = {
  'a value that is none': /\b(NaN|undefined|null|Infinity|Invalid)\b/,
  'an hour that no clock has': /(?<![:\d])2[4-9]:[0-5]\d(?!:)/,
  'a time that runs backwards': /[-−]\s?\d+([.,]\d+)? (min|minutes?|h|hours?|seconds?)\b/,
  'brackets or quotes round nothing': /\(\s*\)|“\s*”/,
  'a mark without a sentence': /(^|\s)[.,;:?](\s|$)|,\s*\.|\.\s?\.(?!\.)/m,
}
/** Blocks without a word; those that scripts fill and those for a pen may be empty. */
const EMPTY =
  /<(p|li|h[1-6]|dt|summary|button|legend|label|figcaption|option)\b(?![^>]*( data-| role=| aria-live=|blank))[^>]*>\s*<\/\1>/
const SPAN = /(second )?(\d\d):(\d\d) to (second )?(\d\d):(\d\d)/g
/** A night is no longer; what seems to be runs backwards. */
const LONGEST_MIN = 18 * 60
const DAY_MIN = 24 * 60

/** The words of a page, a line for each block; without choices of forms, which hold durations too. */
export const wordsOf = (html: string): string =>
  html
    .replace(/<(script|style|head|select)\b[\s\S]*?<\/\1>/g, '')
    .replace(
      /<\/(p|li|h\d|t[dhr]|d[dt]|section|div|button|label|summary|caption|legend|text|tspan|title|header|nav)>/g,
      '\n',
    )
    .replace(/<[^>]+>/g, '')
    .replaceAll('&amp;', '&')
    .replaceAll('&#x27;', "'")
    .replaceAll('&quot;', '"')
    .replace(/[^\S\n]+/g, ' ')
    .replace(/\s*\n\s*/g, '\n')

/** What is wrong with a page as a text, whatever it tells of; [] when all is well. */
export function faultsOfPage(html: string): readonly string[] {
  const words = wordsOf(html)
  const empty = EMPTY.exec(html)
  return [...faultsOfText(words), ...(empty ? [`an empty ${empty[1]}: ${empty[0]}`] : [])]
}

export const faultsOfText = (words: string): readonly string[] => [
  ...Object.entries(NEVER).flatMap(([name, pattern]) => {
    const found = pattern.exec(words)
    return found ? [`${name}: ${words.slice(Math.max(0, found.index - 40), found.index + 40)}`] : []
  }),
  ...[...words.matchAll(SPAN)].flatMap((span) => (isBackwards(span) ? [`a span that is none: ${span[0]}`] : [])),
]

/** From a time to the same one, or to one that comes before it. */
function isBackwards([, second, hour, minute, secondEnd, endHour, endMinute]: RegExpMatchArray): boolean {
  const minutes = 60 * (Number(endHour) - Number(hour)) + Number(endMinute) - Number(minute)
  if (second !== secondEnd) return false
  return minutes === 0 || (minutes + DAY_MIN) % DAY_MIN > LONGEST_MIN
}

const TELLS_DURATION = /^(minutesLeft|darkMin|seconds|looks|.*Sec|waitMin.*)$/

/** What is wrong with an answer in JSON: no number where one belongs, or an instant beside another clock time than `clock` gives. */
export function faultsOfJson(answer: unknown, clock: (at: Date) => string, path = ''): readonly string[] {
  if (typeof answer === 'string')
    return /\b(NaN|undefined|Infinity|Invalid)\b/.test(answer) ? [`${path}: ${answer}`] : []
  if (typeof answer === 'number')
    return TELLS_DURATION.test(path.split('.').at(-1) ?? '') && answer < 0 ? [`${path}: ${answer}`] : []
  if (typeof answer !== 'object' || answer === null) return []
  return Object.entries(answer).flatMap(([name, value]) => {
    const at = name.endsWith('Wall') ? Reflect.get(answer, name.slice(0, -'Wall'.length)) : undefined
    const isOther = typeof at === 'string' && clock(new Date(at)) !== value
    return [
      ...(isOther ? [`${path}.${name} is ${value}, and ${at} is ${clock(new Date(at))}`] : []),
      ...faultsOfJson(value, clock, `${path}.${name}`),
    ]
  })
}
