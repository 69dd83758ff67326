import { expect, it } from 'vitest'
import { printed } from '../../server/web/routes/print-subject.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { A_NIGHT, A_TOUR } from '../support/field-data.ts'
import { HOST } from '../support/page-data.ts'

it('asks for the walks of what is on the programme, each once, and of no spare', async () => {
  const { desk, kept } = fakeDesk()
  const [stop] = A_TOUR.stops
  if (!stop) throw new Error('The programme of the tests has a stop')
  const { startsAt: fromAt, endsAt: untilAt } = stop
  const spare = { ...stop, targetKey: 'm57', fromAt, untilAt, cause: { code: 'low' as const } }
  kept.tours.splice(0, kept.tours.length, { ...A_TOUR, stops: [stop, stop], spares: [spare] })
  const asked: (readonly string[])[] = []
  const walks = async (_id: string, keys: readonly string[]) => {
    asked.push(keys)
    return []
  }
  const charts = { ...desk.charts, walks }
  await printed({ ...desk, charts }, { viewer: HOST, id: A_NIGHT.id, query: {} }, () => null)
  expect(asked).toEqual([[stop.targetKey]])
})
