import type { Words } from '../words/words.ts'
import type { FieldSubject, FieldView } from './field.ts'
import { cardWords, linesFrom, scaleBar } from './field-foot.ts'
import type { Field } from './field-matter.ts'
import { COLUMN, LETTER_PX } from './field-paper.ts'
import { circleOf, circleSvg, type DrawnView, insetSvg, legendText, tooSmallIn } from './field-view.ts'

/** The circle is 36.8 mm wide in print. */
const RADIUS = 92
const ROOM = 24
const WIDE = 2 * (RADIUS + ROOM)
const GAP = 10
const ASIDE = COLUMN - WIDE - GAP
const INSET = { half: [ASIDE / 2 - 4, 28], roomPx: 16, sidePx: ASIDE / 2 } as const
const LINE_PX = 26
const LONGEST_BAR_PX = 100

/** One circle with its arrows, and beside it what it is in words, and the thing once more where it is small. */
export function fieldOnCard(
  subject: FieldSubject,
  view: FieldView,
  field: Field,
  leftPx: number,
  words: Words,
): DrawnView {
  const side = { x: leftPx + WIDE + GAP, widePx: ASIDE, linePx: LINE_PX, longestPx: LONGEST_BAR_PX }
  const texts = cardWords(subject, view, words)
  const said = linesFrom(side, LETTER_PX, texts)
  const bar = scaleBar(side, said.y, RADIUS / (30 * view.setup.trueFieldDeg), words)
  const place = { x: leftPx + WIDE / 2, y: WIDE / 2, radiusPx: RADIUS, roomPx: ROOM, sidePx: WIDE / 2 }
  const room = { ...INSET, x: side.x + ASIDE / 2, topPx: bar.bottomPx - 4 }
  const circle = circleOf(view, field, place, room)
  const sized = circle.inset === null ? null : insetSvg(circle.inset, words)
  const svg = [
    ...circleSvg(circle, place, `${subject.idPrefix}-field-${leftPx}`, words),
    ...said.svg,
    ...bar.svg,
    ...(sized?.svg ?? []),
  ]
  const bottomPx = Math.max(WIDE, sized?.bottomPx ?? bar.bottomPx)
  return { svg, circle, bottomPx, texts, legend: legendText(circle, words), tooSmall: tooSmallIn(field, circle) }
}
