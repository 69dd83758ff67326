import type { Assets } from '../../server/web/assets.ts'
import { formsOf } from './html-forms.ts'
import { harmless, hugeText, nastyText, withoutControls } from './nasty-words.ts'
import { apart, learn, strangeIn } from './typed-checks.ts'
import { type FormTarget, keptBy, send } from './typed-send.ts'
import { type Told, type TypedService, typedService } from './typed-service.ts'

/** They make a new thing at each sending; what they say of wrong words is looked at, what they make is not. */
const MAKES_NEW = /^\/(sites|telescopes|nights|extras|start|extras\/import)$/
/** They end the session, the night or the copy that the rounds go on with. */
const ENDS = /^\/join|sign-out|sign-in|\/remove|\/close$|\/backups/
/** What shows most of what is typed and neither draws nor reckons: the rest is looked at in the long run alone. */
const QUICK =
  /^\/sites\/[^/]+\/(edit|notes)$|^\/nights\/[^/]+(\/(edit|checklists|class|phones|report|report.csv))?$|\/words$|\/print\/class-letter$/

/** What is typed into a field of a form. */
export type WordFor = (target: FormTarget, name: string) => string

interface RoundReport {
  readonly problems: readonly string[]
  readonly strings: number
  readonly pages: number
  readonly refused: number
}

/** A service into which people who mean harm type, with plain letters of the same length before each of their words. */
export async function typedRounds(pagesToo: 'every page' | 'quick pages', assets?: Assets) {
  const service = await typedService(assets)
  const pages = service.pages.filter((page) => pagesToo === 'every page' || QUICK.test(page))
  const targets = [...(await targetsOf(service, pages)), joiningBy(service.joinToken)]
  const known = new Set<string>()
  for (const page of await answersOf(service, pages)) learn(page, known)
  for (const target of targets) learn(await send(service, target, () => 'o'.repeat(5_000), true), known)

  /** Types the words into all forms; what is strange in the answers, and how many forms were refused. */
  async function typeInto(wordFor: WordFor): Promise<readonly Told[]> {
    service.dropPhones()
    const told: Told[] = []
    for (const target of targets) {
      told.push(await send(service, target, (name) => `${wordFor(target, name)}zq`, true))
      if (target.form.method === 'get' || target.kept.size === 0) continue
      told.push(await typeKept(service, target, wordFor))
    }
    return [...told, ...(await answersOf(service, pages))]
  }

  /** Draws a word for every field of every form. */
  function draw(random: () => number) {
    const words = new Map(
      targets.map((target) => [target, new Map(target.form.typed.map((name) => [name, text(random, target, name)]))]),
    )
    const nasty = (target: FormTarget, name: string) => words.get(target)?.get(name) ?? ''
    const plain = (target: FormTarget, name: string) => harmless(nasty(target, name))
    return { nasty, plain, strings: [...words.values()].reduce((sum, { size }) => sum + size, 0) }
  }

  /** Types into every field and looks at every page. */
  async function round(random: () => number): Promise<RoundReport> {
    const words = draw(random)
    const plain = await typeInto(words.plain)
    for (const told of plain) learn(told, known)
    const nasty = await typeInto(words.nasty)
    const alike = nasty.flatMap((told, place) => apart(told, plain[place]))
    return {
      problems: [...new Set([...nasty.flatMap((told) => strangeIn(told, known)), ...alike])],
      strings: words.strings,
      pages: nasty.length,
      refused: nasty.filter(({ status }) => status >= 400).length,
    }
  }
  return { targets, draw, round, service, pages, close: service.close }
}

/** Types the words into the fields of a form that keep them. */
export const typeKept = (service: TypedService, target: FormTarget, word: WordFor): Promise<Told> =>
  send(service, target, (name) => keepable(word(target, name), target.kept.get(name)))

/** The form by which strangers name themselves. */
const joiningBy = (token: string): FormTarget => ({
  form: {
    method: 'post',
    action: '/join',
    fields: [
      ['token', token],
      ['role', 'operator'],
      ['name', ''],
    ],
    typed: ['name'],
  },
  kept: new Map([['name', LONGEST_NAME]]),
})
const LONGEST_NAME = 40

const keepable = (word: string, longest: number | undefined) => withoutControls(word).slice(0, longest) || 'Oak'

const text = (random: () => number, { kept }: FormTarget, name: string): string =>
  random() < 0.01 ? hugeText(random) : nastyText(random, kept.get(name) ?? 60)

async function answersOf(service: TypedService, pages: readonly string[]): Promise<readonly Told[]> {
  const told: Told[] = []
  for (const page of pages) told.push(await service.get(page))
  return told
}

/** Every form of every page into which something can be typed, and which of its fields keep a word. */
async function targetsOf(service: TypedService, pages: readonly string[]): Promise<readonly FormTarget[]> {
  const targets = new Map<string, FormTarget>()
  for (const page of pages) {
    const { body, type, status } = await service.get(page)
    if (status !== 200 || !type.startsWith('text/html')) continue
    for (const form of formsOf(body, page)) {
      const name = `${form.method} ${form.action} ${form.typed.join()}`
      if (form.typed.length === 0 || ENDS.test(form.action) || targets.has(name)) continue
      const isKeeping = form.method === 'post' && !MAKES_NEW.test(form.action)
      targets.set(name, { form, kept: isKeeping ? await keptBy(service, form) : new Map() })
    }
  }
  return [...targets.values()]
}
