const SAID = /^(\d{1,2})(?:[:.h](\d{2}))?(?:h|uhr)?(?:([ap])\.?m\.?)?$/

/**
 * A clock time as people type it (`18.30`, `18h30`, `18 Uhr`, `6:30 pm`) as `HH:mm`; the text itself where it is none, or
 * where nobody knows which half of the day is meant, as with `6:30`.
 */
export function clockSaid(text: string): string {
  const said = text.toLowerCase().replace(/\s/g, '')
  const [, hourText = '', minutes = '00', half] = SAID.exec(said) ?? []
  const hour = Number(hourText)
  const isBare = said === hourText || (half === undefined && hourText.length < 2)
  if (hourText === '' || isBare || Number(minutes) > 59 || hour > (half === undefined ? 23 : 12)) return text
  if (half !== undefined && hour === 0) return text
  const whole = half === undefined ? hour : (hour % 12) + (half === 'p' ? 12 : 0)
  return `${String(whole).padStart(2, '0')}:${minutes}`
}
