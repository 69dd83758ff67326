const NO_BREAK = '\u00a0'
/** Units, and what is said like one, that must not begin a line; `in` is one only where the phrase ends with it. */
const UNITS = 'mm|cm|m|km(?:/h)?|m/s|mph|mi(?:/h)?|ft|min|h|s|GB|MB|%|°[CF]|Uhr|times|[ap]m|[AP]M|in(?=[).,;<])'
const LOOSE = new RegExp(`(?<=[\\d½¼¾]) (?=(?:${UNITS})(?![\\p{L}\\p{N}/]))`, 'gu')

/** A page in which no line ends between a number and its unit. What stands in a tag or was typed into a box stays as it is. */
export const boundUnits = (html: string): string =>
  html.replace(LOOSE, (gap: string, at: number) => (isRead(html, at) ? NO_BREAK : gap))

const isRead = (html: string, at: number): boolean => {
  const isInTag = html.lastIndexOf('<', at) > html.lastIndexOf('>', at)
  return !isInTag && !html.startsWith('<textarea', html.lastIndexOf('<', at))
}
