import { expect } from 'vitest'
import { plainValue } from './html-elements.ts'
import { formsOf } from './html-forms.ts'
import { asHost, formPost, type TestApp } from './web.ts'

/** What is typed into which field of the form that posts to an address, and what is said of it and of which label. */
export interface Nasty {
  /** The page of the form, and where it posts to. */
  readonly form: readonly [page: string, action: string]
  readonly field: string
  readonly typed: string
  readonly label: string
  readonly sentence: string
}

type Fields = Readonly<Record<string, string>>

/** What a browser without scripts would send of a form as it stands. */
const untouched = (html: string, action: string): Fields =>
  Object.fromEntries(formsOf(html, '').find((form) => form.action.split('?')[0] === action)?.fields ?? [])

const textOf = (html: string, tag: RegExp): string => plainValue(tag.exec(html)?.[1] ?? '')

/**
 * Types one thing into a form that is else as its page shows it, and looks at the answer: the sentence at the field and
 * above the form with the field's label, where the reader is led, the title, and that all else stands as it was typed.
 */
export async function refusedTyping({ app }: TestApp, nasty: Nasty, given: Fields = {}): Promise<string> {
  const { form, field, typed, label, sentence } = nasty
  const [page, action] = form
  const before = untouched((await app.inject(asHost({ url: page }))).body, action)
  expect(Object.keys(before), `${page} has ${field}`).toContain(field)
  const sent = { ...before, ...given, [field]: typed }
  const answer = await app.inject(asHost(formPost(action, sent)))
  const { body } = answer
  expect(answer.statusCode).toBe(422)
  expect(textOf(body, /<title>([^<]*)/)).toMatch(/^(Error|Fehler): /)
  const id = `field-${field.replaceAll('.', '-')}`
  expect(textOf(body, new RegExp(`id="${id}-problem">([^<]*)<`))).toContain(sentence)
  expect(body).toMatch(new RegExp(`id="${id}"[^>]*aria-describedby="[^"]*${id}-problem"[^>]*aria-invalid="true"`))
  expect(plainValue(body.split('data-problems')[1] ?? '')).toContain(`<a href="#${id}">${label}: ${sentence}`)
  expect(untouched(body, action)).toEqual(sent)
  return body
}
