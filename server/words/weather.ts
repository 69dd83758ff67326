import { numberFormat } from './formats.ts'
import type { Units, WordsSettings } from './words.ts'

const KMH = { 'km/h': 1, kmh: 1, kph: 1, 'm/s': 3.6, mps: 3.6, mph: 1.609344 } as const
const WRITTEN = /^([+-]?\d+(?:\.\d+)?)\s*(\S.*)?$/

const isImperial = (units: Units): boolean => units === 'imperial'

/** `29 km/h`, `18 mph` or `29 km/h (18 mph)`. */
export const speedText = (kmh: number, settings: WordsSettings): string =>
  inUnits(settings, withUnit(kmh, 'kilometer-per-hour', settings), withUnit(kmh / KMH.mph, 'mile-per-hour', settings))

/** `-2°C`, `28°F` or both; whole degrees. */
export const temperatureText = (celsius: number, settings: WordsSettings): string =>
  inUnits(settings, withUnit(celsius, 'celsius', settings), withUnit(celsius * 1.8 + 32, 'fahrenheit', settings))

const inUnits = ({ units }: WordsSettings, metric: string, imperial: string): string =>
  units === 'both' ? `${metric} (${imperial})` : isImperial(units) ? imperial : metric

// Adding 0 turns a minus nothing into nothing.
const withUnit = (value: number, unit: string, { language }: WordsSettings): string =>
  numberFormat(language, { style: 'unit', unit, unitDisplay: 'short', maximumFractionDigits: 0 }).format(
    Math.round(value) + 0,
  )

/** Whole km/h of a speed as people type it: a bare number in the reader's units, or one with km/h, m/s or mph; NaN for anything else. */
export function speedTyped(text: string, units: Units): number {
  const [value, unit] = partsOf(text)
  const factor =
    unit === '' ? (isImperial(units) ? KMH.mph : 1) : Object.entries(KMH).find(([name]) => name === unit)?.[1]
  return factor === undefined ? Number.NaN : Math.round(value * factor)
}

/** Celsius, to a tenth, of a temperature as people type it: a bare number in the reader's units, or one with C or F; NaN for anything else. */
export function temperatureTyped(text: string, units: Units): number {
  const [value, written] = partsOf(text)
  const unit = written.replace('°', '').trim()
  if (unit !== '' && unit !== 'c' && unit !== 'f') return Number.NaN
  const isFahrenheit = unit === '' ? isImperial(units) : unit === 'f'
  return Math.round(10 * (isFahrenheit ? (value - 32) / 1.8 : value)) / 10 + 0
}

/** The number as a reader of these units would type it back. */
export const speedWritten = (kmh: number, units: Units): string =>
  isImperial(units) ? plainest(kmh / KMH.mph, (text) => speedTyped(text, units) === kmh) : String(kmh)

export const temperatureWritten = (celsius: number, units: Units): string =>
  isImperial(units)
    ? plainest(celsius * 1.8 + 32, (text) => temperatureTyped(text, units) === celsius)
    : String(celsius)

/** A whole number where that is read as the same value, else one to a tenth: what is not touched must not move. */
function plainest(value: number, isSame: (text: string) => boolean): string {
  const whole = String(Math.round(value))
  return isSame(whole) ? whole : String(Math.round(10 * value) / 10)
}

function partsOf(text: string): readonly [number, string] {
  const found = WRITTEN.exec(text.trim().replace(',', '.').replace('−', '-'))
  return found === null ? [Number.NaN, ''] : [Number(found[1]), (found[2] ?? '').toLowerCase()]
}
