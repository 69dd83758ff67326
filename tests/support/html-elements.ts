/** An element as it begins in a page, or the end of one. */
export interface HtmlTag {
  readonly name: string
  readonly isEnd: boolean
  readonly attributes: ReadonlyMap<string, string>
}

/** In these a browser reads no elements until their own end. */
const PLAIN_WITHIN = new Set(['script', 'style', 'textarea', 'title', 'iframe', 'noframes', 'xmp', 'noembed'])

/** The tags of a page in their order, read as browsers read them: what looks like an element to them is one here. */
export function tagsOf(html: string): readonly HtmlTag[] {
  const tags: HtmlTag[] = []
  let at = html.indexOf('<')
  while (at >= 0 && at < html.length) {
    const [, slash, name] = matchAt(/<(\/?)([a-z][^\s/>]*)/iy, html, at) ?? []
    if (name === undefined) {
      at = html.indexOf('<', afterOddMark(html, at))
      continue
    }
    const isEnd = slash === '/'
    const { attributes, end } = attributesFrom(html, at + 1 + (isEnd ? 1 : 0) + name.length)
    tags.push({ name: name.toLowerCase(), isEnd, attributes })
    const isPlain = !isEnd && PLAIN_WITHIN.has(name.toLowerCase())
    at = isPlain ? endOfPlain(html, name, end) : html.indexOf('<', end)
  }
  return tags
}

/** Behind a comment, a document type, or a mark that begins nothing. */
function afterOddMark(html: string, at: number): number {
  if (html.startsWith('<!--', at)) return behind(html, '-->', at + 2)
  return /^<[!?/]/.test(html.slice(at, at + 2)) ? behind(html, '>', at) : at + 1
}

function behind(html: string, end: string, from: number): number {
  const at = html.indexOf(end, from)
  return at < 0 ? html.length : at + end.length
}

function endOfPlain(html: string, name: string, from: number): number {
  const end = new RegExp(`</${name}[\\s/>]`, 'gi')
  end.lastIndex = from
  return end.exec(html)?.index ?? html.length
}

function attributesFrom(html: string, from: number): { attributes: ReadonlyMap<string, string>; end: number } {
  const attributes = new Map<string, string>()
  const one = /[\s/]*(?:(>)|(=?[^\s/>=]*)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>]*)))?)/y
  let at = from
  while (at < html.length) {
    const found = matchAt(one, html, at)
    if (!found || found[0] === '') return { attributes, end: at + 1 }
    at += found[0].length
    if (found[1] !== undefined) return { attributes, end: at }
    attributes.set((found[2] ?? '').toLowerCase(), found[3] ?? found[4] ?? found[5] ?? '')
  }
  return { attributes, end: at }
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at
  return pattern.exec(text)
}

const NAMED: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" }

/** The value of an attribute as a browser reads it. */
export const plainValue = (value: string): string =>
  value.replaceAll(/&(?:#x([\da-f]+)|#(\d+)|(\w+));/gi, (whole, hex, decimal, name) => {
    if (name !== undefined) return NAMED[name] ?? whole
    return String.fromCodePoint(hex === undefined ? Number(decimal) : Number.parseInt(hex, 16))
  })
