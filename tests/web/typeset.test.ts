import { describe, expect, it } from 'vitest'
import { typeset } from '../../server/web/typeset.ts'

const shown = (html: string): string => typeset(html).replaceAll('\u00a0', '_')

describe('a number and its unit', () => {
  it.each([
    ['<p>Wind: 8 km/h, gusts 29 m/s</p>', '<p>Wind: 8_km/h, gusts 29_m/s</p>'],
    ['<td>3 h 30 min</td>', '<td>3_h 30_min</td>'],
    ['<p>130 cm (51 in), 55 %.</p>', '<p>130_cm (51_in), 55_%.</p>'],
    ['<p>At 6:40 pm, um 18 Uhr, 3 °C</p>', '<p>At 6:40_pm, um 18_Uhr, 3_°C</p>'],
    ['<b>130 mm</b> telescope', '<b>130_mm</b> telescope'],
    ['<p>Eyepiece 24 mm, 28 times</p>', '<p>Eyepiece 24_mm, 28_times</p>'],
  ])('stay in one line: %s', (html, bound) => {
    expect(shown(html)).toBe(bound)
  })

  it.each([
    '<p>87 in a hundred, 4 stations, 12 minutes, 5 months, 3 hedges, 2 sites</p>',
    '<input value="130 mm telescope" title="8 km/h">',
    '<textarea rows="3">It is 50 m to the toilets.</textarea>',
    '<p>mm 5  mm</p>',
  ])('leave all else as it is: %s', (html) => {
    expect(typeset(html)).toBe(html)
  })

  it.each([
    ["<p>arm's length, helpers' phones</p>", '<p>arm’s length, helpers’ phones</p>'],
    ['<b>Bode&#x27;s Galaxy</b><text>Bode&#39;s</text>', '<b>Bode’s Galaxy</b><text>Bode’s</text>'],
    ['<a title="Bode&#x27;s">Bode&#x27;s</a>', '<a title="Bode&#x27;s">Bode’s</a>'],
    ['<textarea>Bode&#x27;s</textarea>', '<textarea>Bode&#x27;s</textarea>'],
    [`<p>'a' and rock 'n' roll, 5'11 and 6' wide</p>`, `<p>'a' and rock 'n' roll, 5'11 and 6' wide</p>`],
    ['<p>NGC 1976, HD 194093, IC 405, M 42</p>', '<p>NGC_1976, HD_194093, IC_405, M 42</p>'],
  ])('has apostrophes, and whole names of catalogues: %s', (html, set) => {
    expect(shown(html)).toBe(set)
  })

  it('is bound again after a box', () => {
    expect(shown('<textarea>5 m</textarea><p>5 m</p>')).toBe('<textarea>5 m</textarea><p>5_m</p>')
  })
})
