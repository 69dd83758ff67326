const NO_BREAK = '\u00a0'
const APOSTROPHE = '\u2019'
/** Units, and what is said like one, that must not begin a line; `in` is one only where the phrase ends with it. */
const UNITS = 'mm|cm|m|km(?:/h)?|m/s|mph|mi(?:/h)?|ft|min|h|s|GB|MB|%|°[CF]|Uhr|times|[ap]m|[AP]M|in(?=[).,;<])'
const BEFORE_UNIT = `(?<=[\\d½¼¾]) (?=(?:${UNITS})(?![\\p{L}\\p{N}/]))`
/** Catalogues whose numbers must not begin a line. */
const BEFORE_NUMBER = '(?<=\\b(?:NGC|IC|HD|HIP)) (?=\\d)'
const STRAIGHT = "(?<=\\p{L})(?:'|&#(?:x27|39);)"
const ROUGH = new RegExp(`${BEFORE_UNIT}|${BEFORE_NUMBER}|${STRAIGHT}`, 'gu')

/** A page in which no line ends between a number and its unit, and every apostrophe is one. What stands in a tag or was typed into a box stays as it is. */
export const typeset = (html: string): string =>
  html.replace(ROUGH, (rough: string, at: number) =>
    isRead(html, at) ? (rough === ' ' ? NO_BREAK : APOSTROPHE) : rough,
  )

const isRead = (html: string, at: number): boolean => {
  const isInTag = html.lastIndexOf('<', at) > html.lastIndexOf('>', at)
  return !isInTag && !html.startsWith('<textarea', html.lastIndexOf('<', at))
}
