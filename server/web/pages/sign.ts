import { lineEm, linesOf } from '../../drawings/letter-widths.ts'
import { type SignName, type SignRoom, signName } from '../../drawings/sign-name.ts'
import { byTimeAndRow } from '../../tours/first-showing.ts'
import type { Stop } from '../../tours/tour.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import { noStopsText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** One sign for one stop, to be changed when the telescope turns to something else. */
interface Sign {
  readonly station: string
  readonly when: string
  readonly name: SignName
  readonly see: string | null
  /** True when the paper lies on its long side. */
  readonly isWide: boolean
}

interface Signs {
  readonly title: string
  readonly version: string
  readonly stale: string | null
  readonly emptyText: string
  readonly signs: readonly Sign[]
}

// Millimetres, as in sign.css: the sheet, and what stands above and below the name.
const WIDE = { widthMm: 254, heightMm: 186 }
const TALL = { widthMm: 190, heightMm: 248 }
/** Letters of 30 and of 14 points with their lines. */
const LARGE = { emMm: 10.6, lineMm: 12.4 }
const SMALL = { emMm: 4.95, lineMm: 6.3 }
const GAPS_MM = 16
const BESIDE_MM = 8

/** The signs of the evening in the order in which they are put up. */
export function signs(viewer: Viewer, subject: PrintSubject): Signs {
  const { words } = viewer
  const { night, tour, isStale } = subject
  const stops = tour.stops.toSorted(byTimeAndRow(night))
  return {
    title: words.say('print.sign'),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    emptyText: noStopsText(words, tour),
    signs: stops.map((stop) => sign(viewer, subject, stop)),
  }
}

function sign(viewer: Viewer, subject: PrintSubject, stop: Stop): Sign {
  const { words } = viewer
  const { night, names } = subject
  const { zone } = night.site
  const head = {
    station: stationName(night, names, stop.stationId),
    when: words.say('page.from-to', { from: words.time(stop.startsAt, zone), to: words.time(stop.endsAt, zone) }),
    see: firstSentence(names.story(stop.targetKey)?.see ?? ''),
  }
  const small = [versionText(viewer, night, subject.tour), staleText(viewer, subject.isStale) ?? '']
  const name = targetName(words, names, stop.targetKey, stop.aim)
  const wide = signName(name, roomOn(WIDE, head, small))
  const tall = signName(name, roomOn(TALL, head, small))
  const isWide = wide.capitalMm >= tall.capitalMm
  return { ...head, name: isWide ? wide : tall, isWide }
}

/** What the paper leaves for the name. */
function roomOn(sheet: SignRoom, head: Pick<Sign, 'station' | 'when' | 'see'>, small: readonly string[]): SignRoom {
  const { widthMm, heightMm } = sheet
  const lines = (text: string, { emMm }: typeof LARGE) => (text === '' ? 0 : linesOf(text, widthMm / emMm, true).length)
  const besideMm = (lineEm(head.station) + lineEm(head.when, true)) * LARGE.emMm + BESIDE_MM
  const headLines = besideMm <= widthMm ? 1 : lines(head.station, LARGE) + lines(head.when, LARGE)
  const large = headLines + lines(head.see ?? '', LARGE)
  const smallLines = small.reduce((sum, text) => sum + lines(text, SMALL), 0)
  return { widthMm, heightMm: heightMm - large * LARGE.lineMm - smallLines * SMALL.lineMm - GAPS_MM }
}

const firstSentence = (text: string): string | null => /^.*?[.!?](?=\s|$)/.exec(text)?.[0] ?? (text || null)
