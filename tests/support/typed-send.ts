import { tagsOf } from './html-elements.ts'
import type { HtmlForm } from './html-forms.ts'
import type { Told, TypedService } from './typed-service.ts'

export interface FormTarget {
  readonly form: HtmlForm
  /** The fields that keep what is typed, each with the most letters that it was seen to take. */
  readonly kept: ReadonlyMap<string, number>
}

const LENGTHS = [40, 20] as const
/** A page names some eight faults at a time. */
const MOST_TRIES = 12
const NUMBER = /^[-+\d.,:\s°]+$/

/** Sends a form with words in the fields that keep them, or in all of them; everything else stays as the page first had it. */
export async function send(
  service: TypedService,
  target: FormTarget,
  word: (name: string) => string,
  intoAll = false,
): Promise<Told> {
  const { form, kept } = target
  const isMeant = (name: string) => (intoAll ? form.typed.includes(name) : kept.has(name))
  const fields = form.fields.map(([name, value]) => [name, isMeant(name) ? word(name) : value] as const)
  if (form.method === 'post') return service.post(form.action, fields)
  const query = new URLSearchParams(fields.map(([name, value]): [string, string] => [name, value]))
  return service.get(`${form.action.split('?')[0]}?${query}`)
}

/** The fields of a form that keep plain words, found by sending them and leaving out what is complained of. */
export async function keptBy(service: TypedService, form: HtmlForm): Promise<ReadonlyMap<string, number>> {
  const kept = new Map<string, number>()
  const values = new Map(form.fields)
  const able = form.typed.filter((name) => !NUMBER.test(values.get(name) ?? ''))
  for (const letters of LENGTHS) {
    let asked = new Set(able.filter((name) => !kept.has(name)))
    for (let tries = 0; tries < MOST_TRIES && asked.size > 0; tries++) {
      const all = new Map([...kept, ...[...asked].map((name) => [name, letters] as const)])
      const told = await send(service, { form, kept: all }, (name) => 'o'.repeat(all.get(name) ?? 0))
      if (told.status === 303) for (const name of asked) kept.set(name, letters)
      const wrong = complainedOf(told.body)
      asked = told.status === 303 ? new Set() : new Set([...asked].filter((name) => !wrong.has(name)))
      if (wrong.size === 0) break
    }
  }
  return kept
}

const complainedOf = (html: string): ReadonlySet<string> =>
  new Set(
    tagsOf(html)
      .filter(({ attributes }) => attributes.get('aria-invalid') === 'true')
      .map(({ attributes }) => attributes.get('name') ?? ''),
  )
