import type { WordsSettings } from './words.ts'

/** Units in which a length may be given; people read it in these or in their partners. */
export type LengthUnit = 'centimeter' | 'meter' | 'kilometer'

const PARTNERS = {
  centimeter: { unit: 'inch', size: 2.54 },
  meter: { unit: 'foot', size: 0.3048 },
  kilometer: { unit: 'mile', size: 1.609344 },
} as const
const WHOLE_FROM = 10

/** `130 cm`, `51 in` or `130 cm (51 in)`; below ten with one decimal where there is one. */
export function lengthText(value: number, unit: LengthUnit, { language, units }: WordsSettings): string {
  const partner = PARTNERS[unit]
  const metric = withUnit(value, unit, language)
  const imperial = withUnit(value / partner.size, partner.unit, language)
  if (units === 'both') return `${metric} (${imperial})`
  return units === 'metric' ? metric : imperial
}

const withUnit = (value: number, unit: string, language: string): string =>
  new Intl.NumberFormat(language, {
    style: 'unit',
    unit,
    unitDisplay: 'short',
    maximumFractionDigits: Math.abs(value) < WHOLE_FROM ? 1 : 0,
  }).format(value)
