import { afterAll, beforeAll, expect, it } from 'vitest'
import { handoutTargets } from '../../server/web/pages/handout-targets.ts'
import { demoNight } from '../support/demo-night.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { HOST, NAMES } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'
import { chartSource, tourOf } from '../support/sky-chart-data.ts'

let source: ReturnType<typeof chartSource>
beforeAll(() => {
  source = chartSource()
}, SLOW_MS)
afterAll(() => source.close())

const AT = new Date('2026-12-17T18:00:00Z')

it('the numbers of the handout are those of the chart, also after a thing that the catalogue no longer knows', () => {
  const keys = ['moon', 'gone-from-the-catalogue', 'saturn', 'm45']
  const nameOf = (key: string): string => source.objects.show(key)?.name ?? key
  const names = { ...NAMES, nameOf, show: source.objects.show }
  const subject = { ...A_FULL_PRINT, night: demoNight, tour: tourOf(demoNight, keys), names }
  const listed = handoutTargets(HOST, subject, 99).targets.map(({ number, name }) => `${number} ${name}`)
  const drawn = source.subject(demoNight, AT, keys).targets.map(({ number, name }) => `${number} ${name}`)
  expect(drawn).toHaveLength(3)
  expect(listed.filter((one) => !one.includes('gone-from'))).toEqual(drawn)
})
