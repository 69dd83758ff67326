import { Value } from 'typebox/value'
import { describe, expect, it } from 'vitest'
import { MARK_KINDS, MARK_PAYLOADS, type MarkKind } from '../../server/tours/mark.ts'
import { SKY_PARTS } from '../../server/tours/sky-part.ts'
import { filledFields } from '../../server/web/bodies.ts'
import { fieldMark } from '../../server/web/routes/field-mark.ts'
import { actOf } from '../../views/scripts/act.ts'

/** For each kind of act, forms as pages have them: what is in them beside the frame. */
const FORMS: Readonly<Record<MarkKind, readonly string[]>> = {
  showing: ['targetKey=m13&aim=whole'],
  shown: ['targetKey=m13'],
  skipped: ['targetKey=m13&why=cloud'],
  trouble: ['what=help'],
  seen: ['targetKey=m13&who=half'],
  counted: ['adults=2&children=1', 'adults=-1&children=0', 'adults=3', 'adults=&children=4', ''],
  timed: ['people=10&seconds=420'],
  clouds: [`shut=${SKY_PARTS[0]}&shut=${SKY_PARTS[1]}&minutes=30`, `shut=${SKY_PARTS[2]}&minutes=`, ''],
  station: ['is=out'],
  accepted: ['tourId=tour-1'],
  dropped: ['tourId=tour-1'],
  undo: ['markKey=phone-0001'],
}

const cases = MARK_KINDS.flatMap((kind) => FORMS[kind].map((form) => [kind, form] as const))

describe('an act read out of a form by the phone', () => {
  it.each(cases)('is the one that the laptop reads out of it: %s with %j', (kind, form) => {
    const text = `key=phone-0002&kind=${kind}&stationId=s1&back=%2Ffield%2Fn1&${form}`
    const { payload, stationId } = actOf(new URLSearchParams(text))
    const { key: _key, secondsAgo: _ago, ...mark } = fieldMark({ body: filledFields(text) })
    expect({ kind, stationId, payload }).toEqual(mark)
    expect(Value.Check(MARK_PAYLOADS[kind], payload)).toBe(true)
  })

  it.each([
    ['stationId=s2', 's2'],
    ['stationId=', null],
    ['', undefined],
  ])('stands at the station of the form, at none, or at that of the page: %j', (text, stationId) => {
    expect(actOf(new URLSearchParams(`kind=trouble&what=help&${text}`)).stationId).toBe(stationId)
  })
})
