import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'

const VIEWS = join(import.meta.dirname, '../../views')
const STYLES = join(VIEWS, 'styles')
const RULES = 'rules.css'
const LAMP = 'lamp.css'
/** Letters on a screen, letters on paper, room, lines on a screen, lines on paper, corners. */
const STEPS = { text: 10, print: 7, space: 7, line: 5, weight: 4, corner: 1 }
const COLOURS = ['paper', 'ink', 'quiet', 'rule', 'hair', 'edge', 'warn', 'print-ink', 'desk']
const OTHERS = ['font', 'act']
/** Sizes of letters that are no step, each with its reason. */
const SIZES_APART: Readonly<Record<string, string>> = {
  'base.css: 100%': 'what readers chose in their browser is the measure of every step',
}

interface Line {
  readonly file: string
  readonly property: string
  readonly value: string
}

const linesOf = (file: string): Line[] => {
  const css = readFileSync(join(STYLES, file), 'utf8').replace(/\/\*.*?\*\//gs, '')
  return [...css.matchAll(/([\w-]+)\s*:\s*([^;{}]+);/g)].map(([, property = '', value = '']) => ({
    file,
    property,
    value,
  }))
}

const lines = readdirSync(STYLES)
  .filter((file) => file.endsWith('.css'))
  .flatMap(linesOf)
const rules = new Map(lines.filter(({ file }) => file === RULES).map(({ property, value }) => [property, value]))
const ruled = lines.filter(({ file }) => file !== RULES)

const told = ({ file, property, value }: Line): string => `${file}: ${property}: ${value}`
const rawIn = (value: string): string => value.replace(/var\([^)]*\)/g, '')
const faultsOf = (property: RegExp, isRight: (value: string, line: Line) => boolean): string[] =>
  ruled.filter((line) => property.test(line.property) && !isRight(line.value, line)).map(told)

const COLOUR =
  /#[\da-f]{3,8}\b|\b(?:rgba?|hsla?|hwb|lab|lch|oklab|oklch|color)\(|(?<![\w-])(?:black|white|red|gr[ae]y|silver|canvas)(?![\w-])/i
const STEP_OF: Readonly<Record<keyof typeof STEPS, RegExp>> = {
  text: /^--text(-\w+)?$/,
  print: /^--print(-(card|field|lead|name|title|far))?$/,
  space: /^--space-\w+$/,
  line: /^--line-\d$/,
  weight: /^--print-(cut|line|frame|bold)$/,
  corner: /^--corner$/,
}
const stepsOf = (kind: keyof typeof STEPS): string[] => [...rules.keys()].filter((name) => STEP_OF[kind].test(name))
/** True for a value that is one step of one of the kinds. */
const isStep = (value: string, ...kinds: (keyof typeof STEPS)[]): boolean =>
  kinds.some((kind) => stepsOf(kind).some((name) => value === `var(${name})`))

describe('the rules of the look', () => {
  it('are a small scale, and nothing else', () => {
    const kinds = Object.keys(STEPS) as (keyof typeof STEPS)[]
    expect(Object.fromEntries(kinds.map((kind) => [kind, stepsOf(kind).length]))).toEqual(STEPS)
    const named = [...kinds.flatMap(stepsOf), ...[...COLOURS, ...OTHERS].map((name) => `--${name}`)]
    expect(named.toSorted()).toEqual([...rules.keys()].toSorted())
    expect(new Set(stepsOf('print').map((name) => rules.get(name))).size).toBe(STEPS.print)
  })

  it('hold no letters under 12 points on paper', () => {
    for (const name of stepsOf('print'))
      expect(Number.parseFloat(rules.get(name) ?? '0'), name).toBeGreaterThanOrEqual(12)
  })

  it('are all used, and everything that is used is one of them', () => {
    const used = new Set(lines.flatMap(({ value }) => [...value.matchAll(/var\((--[\w-]+)/g)].map(([, name]) => name)))
    expect([...used].toSorted()).toEqual([...rules.keys()].toSorted())
  })

  it('are changed elsewhere by the name of another step alone, in colours by the lamp alone', () => {
    const changes = ruled.filter(({ property }) => property.startsWith('--'))
    expect(changes.length).toBeGreaterThan(0)
    expect(changes.filter(({ property }) => !rules.has(property)).map(told)).toEqual([])
    expect(changes.filter(({ file, value }) => file !== LAMP && rawIn(value) !== '').map(told)).toEqual([])
  })
})

describe('all other styles', () => {
  it('are many, and have something to hold to', () => {
    expect(new Set(ruled.map(({ file }) => file)).size).toBeGreaterThan(40)
    for (const value of ['#fff', 'rgb(0 0 0)', 'solid red', 'White']) expect(value).toMatch(COLOUR)
    expect('balance').not.toMatch(COLOUR)
  })

  it('name every colour by its role', () => {
    expect(faultsOf(/./, (value, { file }) => file === LAMP || !COLOUR.test(value))).toEqual([])
  })

  it('take every size of letters from the scale', () => {
    const apart = new Set<string>()
    const faults = faultsOf(/^font(-size)?$/, (value, { file }) => {
      const name = `${file}: ${value}`
      if (SIZES_APART[name] !== undefined) apart.add(name)
      return apart.has(name) || value === 'inherit' || value === '0' || isStep(value, 'text', 'print')
    })
    expect(faults).toEqual([])
    expect([...apart]).toEqual(Object.keys(SIZES_APART))
  })

  it('take the width of every line from the scale', () => {
    const isLine = /^(border(?!-(radius|spacing))|outline|text-decoration-thickness|column-rule)/
    expect(
      faultsOf(isLine, (value) => {
        const widths = value.split(' ').filter((part) => /\d|^(thin|medium|thick)$/.test(part))
        return widths.every((width) => width === '0' || isStep(width, 'line', 'weight'))
      }),
    ).toEqual([])
  })

  it('round corners by the scale, or to a circle', () => {
    const isRight = (value: string): boolean => value === '0' || value === '50%' || isStep(value, 'corner')
    expect(faultsOf(/radius$/, isRight)).toEqual([])
  })

  it('call room by its name where it is a step of the scale', () => {
    const room = new Set(stepsOf('space').map((name) => rules.get(name)))
    const isRight = (value: string): boolean => value.split(' ').every((part) => !room.has(part))
    expect(faultsOf(/^(padding|margin|scroll-margin|gap|column-gap|row-gap)/, isRight)).toEqual([])
  })
})

it('no template has a style of its own', () => {
  const templates = readdirSync(VIEWS, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.hbs'))
  expect(templates.length).toBeGreaterThan(20)
  const styled = templates.filter((file) => /<style|\sstyle=/.test(readFileSync(join(VIEWS, file), 'utf8')))
  expect(styled).toEqual([])
})
