declare const made: unique symbol
/** SVG text in which every word is escaped: only this file makes it. */
export type Svg = string & { readonly [made]: true }

export type Attributes = Readonly<Record<string, string | number>>

/** Text as it stands in a drawing, escaped. */
export const svgText = (text: string): Svg => escaped(text) as Svg

/** One element with its attributes (numbers to a hundredth) and what stands inside it. Presentation attributes only: a page's policy forbids inline styles. */
export function svgElement(name: string, attributes: Attributes, ...inside: readonly Svg[]): Svg {
  const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(valueText(value))}"`)
  return `<${name}${written.join('')}>${inside.join('')}</${name}>` as Svg
}

/** How large a picture is in its own units, and what a reader who does not see it is told. */
interface Picture {
  readonly width: number
  readonly height: number
  readonly title: string
  readonly description?: string
}

/** A whole picture. */
export const svgPicture = ({ width, height, title, description }: Picture, ...inside: readonly Svg[]): Svg =>
  svgElement(
    'svg',
    { viewBox: `0 0 ${width} ${height}`, role: 'img', xmlns: 'http://www.w3.org/2000/svg' },
    svgElement('title', {}, svgText(title)),
    ...(description === undefined ? [] : [svgElement('desc', {}, svgText(description))]),
    ...inside,
  )

/** Pairs of numbers as a `points` attribute. */
export const pointsText = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y]) => `${valueText(x)},${valueText(y)}`).join(' ')

const valueText = (value: string | number): string =>
  typeof value === 'string' ? value : String(Math.round(value * 100) / 100)

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}
const escaped = (text: string): string => text.replace(/[&<>"']/g, (letter) => ESCAPES[letter] ?? '')
