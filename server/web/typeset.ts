const NO_BREAK = '\u00a0'
const APOSTROPHE = '\u2019'
/** Units, and what is said like one, that must not begin a line; `in` is one only where the phrase ends with it. */
const UNITS = 'mm|cm|m|km(?:/h)?|m/s|mph|mi(?:/h)?|ft|min|h|s|GB|MB|%|°[CF]|Uhr|times|[ap]m|[AP]M|in(?=[).,;<])'
const BEFORE_UNIT = `(?<=[\\d½¼¾]) (?=(?:${UNITS})(?![\\p{L}\\p{N}/]))`
/** Catalogues whose numbers must not begin a line. */
const BEFORE_NUMBER = '(?<=\\b(?:NGC|IC|HD|HIP)) (?=\\d)'
/** An apostrophe within a word, or behind the s of many. */
const QUOTE = "(?:'|&#(?:x27|39);)"
const STRAIGHT = `(?<=\\p{L})${QUOTE}(?=\\p{L})|(?<=s)${QUOTE}(?=[\\s.,;:!?)<])`
/** Tags are passed over. */
const PARTS = new RegExp(`<[^>]*>|${BEFORE_UNIT}|${BEFORE_NUMBER}|${STRAIGHT}`, 'gu')

/** A page in which no line ends between a number and its unit, and every apostrophe is one. What stands in a tag or was typed into a box stays as it is. */
export function typeset(html: string): string {
  const boxAt = html.indexOf('<textarea')
  if (boxAt < 0) return outsideBoxes(html)
  const behind = html.indexOf('</textarea', boxAt)
  if (behind < 0) return outsideBoxes(html.slice(0, boxAt)) + html.slice(boxAt)
  return outsideBoxes(html.slice(0, boxAt)) + html.slice(boxAt, behind) + typeset(html.slice(behind))
}

const outsideBoxes = (html: string): string =>
  html.replace(PARTS, (part) => (part.startsWith('<') ? part : part === ' ' ? NO_BREAK : APOSTROPHE))
