import type { Words } from '../words/words.ts'
import type { FieldSubject, FieldView } from './field.ts'
import { cardWords, footWords, linesFrom, scaleBar } from './field-foot.ts'
import type { Field } from './field-matter.ts'
import { COLUMN, LINE_PX, RADIUS, RIM_ROOM } from './field-paper.ts'
import { circleOf, circleSvg, type DrawnView, insetSvg, legendLines, legendText, tooSmallIn } from './field-view.ts'

const INSET = { half: [185, 62], roomPx: 24, sidePx: COLUMN / 2 } as const
/** On a card without a finder chart, with room for its name and the legend: the circle is 48 mm wide in print. */
const BRIEF_RADIUS = 120
const BRIEF_INSET = { half: [185, 38], roomPx: 16, sidePx: COLUMN / 2 } as const
const LONGEST_BAR_PX = 170

/** One circle with its arrows, below it the thing once more where it is small, and what both are in words. */
export function fieldColumn(
  subject: FieldSubject,
  view: FieldView,
  field: Field,
  leftPx: number,
  words: Words,
): DrawnView {
  const isBrief = subject.layout === 'whole-card'
  const middleX = leftPx + COLUMN / 2
  const radiusPx = isBrief ? BRIEF_RADIUS : RADIUS
  const y = radiusPx + RIM_ROOM
  const place = { x: middleX, y, radiusPx, roomPx: RIM_ROOM, sidePx: COLUMN / 2 }
  const room = { ...(isBrief ? BRIEF_INSET : INSET), x: middleX, topPx: 2 * y }
  const circle = circleOf(view, field, place, room)
  const sized = circle.inset === null ? null : insetSvg(circle.inset, words)
  const part = { x: leftPx, widePx: COLUMN, linePx: LINE_PX, longestPx: LONGEST_BAR_PX }
  const texts = isBrief
    ? [cardWords(subject, view, words).join(', ')]
    : [...legendLines(circle, COLUMN, words), ...footWords(subject, view, words)]
  const foot = linesFrom(part, (sized?.bottomPx ?? 2 * y) + LINE_PX - 2, texts)
  const bar = scaleBar(part, foot.y, circle.pxPerArcmin, words)
  const svg = [
    ...circleSvg(circle, place, `${subject.idPrefix}-field-${leftPx}`, words),
    ...(sized?.svg ?? []),
    ...foot.svg,
    ...bar.svg,
  ]
  const legend = isBrief ? legendText(circle, words) : null
  return { svg, circle, bottomPx: bar.bottomPx, texts, legend, tooSmall: tooSmallIn(field, circle) }
}
