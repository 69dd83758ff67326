import { plainValue, tagsOf } from './html-elements.ts'

/** A form of a page, with its fields as they stand there. */
export interface HtmlForm {
  readonly method: 'get' | 'post'
  readonly action: string
  readonly fields: readonly (readonly [name: string, value: string])[]
  /** The names of the fields into which people type. */
  readonly typed: readonly string[]
}

const TYPED = new Set(['text', 'search', 'tel', 'url', 'email', ''])

/** Every form of a page as a browser would send it untouched. */
export function formsOf(html: string, page: string): readonly HtmlForm[] {
  return html
    .split(/(?=<form[\s>])/)
    .slice(1)
    .map((piece) => formOf(piece.split('</form>')[0] ?? '', page))
}

/** The forms of a page that post to an address of that end, each with what a browser without scripts would send untouched. */
export const formsTo = (html: string, end: string) =>
  formsOf(html, '')
    .filter(({ method, action }) => method === 'post' && action.endsWith(end))
    .map(({ action, fields }) => ({ action, fields: Object.fromEntries(fields) as Readonly<Record<string, string>> }))

function formOf(html: string, page: string): HtmlForm {
  const tags = tagsOf(html).filter(({ isEnd }) => !isEnd)
  const get = (of: ReadonlyMap<string, string> | undefined, name: string) => plainValue(of?.get(name) ?? '')
  const form = tags[0]?.attributes
  const inputs = tags.filter(({ name }) => name === 'input').map(({ attributes }) => attributes)
  const sent = inputs.filter((input) => {
    const type = get(input, 'type')
    return type === 'checkbox' || type === 'radio' ? input.has('checked') : !['submit', 'image', 'file'].includes(type)
  })
  const areas = [...html.matchAll(/<textarea([^>]*)>([^<]*)/g)].map(([, head = '', text = '']) => ({
    name: plainValue(/ name="([^"]*)"/.exec(head)?.[1] ?? ''),
    text: plainValue(text),
  }))
  const fields = [
    ...sent.map((input) => [get(input, 'name'), get(input, 'value')] as const),
    ...areas.map(({ name, text }) => [name, text] as const),
    ...chosen(html),
    ...button(html),
  ]
  const typed = [...inputs.filter((input) => TYPED.has(get(input, 'type'))).map((input) => get(input, 'name'))]
  return {
    method: get(form, 'method').toLowerCase() === 'post' ? 'post' : 'get',
    action: get(form, 'action') || page,
    fields: fields.filter(([name]) => name !== ''),
    typed: [...new Set([...typed, ...areas.map(({ name }) => name)])].filter((name) => name !== ''),
  }
}

function chosen(html: string): readonly (readonly [string, string])[] {
  return [...html.matchAll(/<select[^>]* name="([^"]*)"[^>]*>(.*?)<\/select>/gs)].map(([, name = '', options = '']) => {
    const value = /<option value="([^"]*)"[^>]* selected/.exec(options) ?? /<option value="([^"]*)"/.exec(options)
    return [plainValue(name), plainValue(value?.[1] ?? '')] as const
  })
}

/** The first button, where it says something. */
function button(html: string): readonly (readonly [string, string])[] {
  const first = tagsOf(html).find(({ name, isEnd }) => name === 'button' && !isEnd)?.attributes
  const name = plainValue(first?.get('name') ?? '')
  return name === '' ? [] : [[name, plainValue(first?.get('value') ?? '')]]
}
