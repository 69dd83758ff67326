import {
  CLOUD_BLOCKS,
  type CloudBlock,
  EARTH_CM,
  MODEL_MOON_CM,
  MODEL_SUN_M,
  MODEL_WORLDS,
  modelWidthCm,
} from '../../tours/class-cloud.ts'
import type { Night } from '../../tours/night.ts'
import { schoolClassOf } from '../../tours/school-class.ts'
import type { Words } from '../../words/words.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'

interface CloudPart {
  readonly time: string
  /** By the clock, where the hours of the class are known. */
  readonly clock: string | null
  readonly title: string
  readonly does: readonly string[]
  readonly says: readonly string[]
}

interface ClassCloud {
  readonly title: string
  readonly subtitle: string
  readonly intro: string
  readonly local: string
  readonly readyLabel: string
  readonly ready: readonly string[]
  readonly doLabel: string
  readonly sayLabel: string
  readonly parts: readonly CloudPart[]
  readonly fruitTitle: string
  readonly fruitLabels: readonly string[]
  readonly fruits: readonly { readonly world: string; readonly width: string; readonly fruit: string }[]
  readonly fruitNotes: readonly string[]
  /** At the foot of the last page, which has no title. */
  readonly night: string
}

const READY = ['telescope', 'fruit', 'lens', 'board', 'safe'] as const
const LINES: Readonly<Record<CloudBlock, { readonly does: number; readonly says: number }>> = {
  welcome: { does: 1, says: 2 },
  telescope: { does: 4, says: 3 },
  fruit: { does: 3, says: 2 },
  story: { does: 3, says: 2 },
  questions: { does: 2, says: 2 },
  home: { does: 1, says: 1 },
}
const MINUTE_MS = 60_000

/** Forty-five minutes under a roof, with what stands on the site anyway. */
export function classCloud({ words }: Viewer, { night }: PrintSubject): ClassCloud {
  return {
    title: words.say('print.class-cloud'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    intro: words.say('cloud-hour.intro'),
    local: words.say('visit.rules'),
    readyLabel: words.say('cloud-hour.ready'),
    ready: READY.map((key) => words.say(`cloud-hour.ready-${key}`)),
    doLabel: words.say('cloud-hour.do'),
    sayLabel: words.say('cloud-hour.say'),
    parts: CLOUD_BLOCKS.map((block) => partOf(words, night, block)),
    fruitTitle: words.say('cloud-hour.fruit-table', { width: words.length(EARTH_CM, 'centimeter') }),
    fruitLabels: ['world', 'width', 'fruit'].map((key) => words.say(`cloud-hour.head-${key}`)),
    fruits: MODEL_WORLDS.map((world) => ({
      world: words.say(`cloud-hour.world-${world}`),
      width: widthText(words, modelWidthCm(world)),
      fruit: words.say(`cloud-hour.fruit-of-${world}`),
    })),
    fruitNotes: [
      words.say('cloud-hour.fruit-far', {
        moon: words.length(MODEL_MOON_CM, 'centimeter'),
        sun: words.length(MODEL_SUN_M, 'meter'),
      }),
      words.say('cloud-hour.fruit-source'),
    ],
    night: words.say('print.where-when', { place: night.title, date: words.date(night.date) }),
  }
}

const CM_M = 100
const widthText = (words: Words, widthCm: number): string =>
  widthCm < CM_M ? words.length(widthCm, 'centimeter') : words.length(widthCm / CM_M, 'meter')

function partOf(words: Words, night: Night, { key, fromMin, toMin }: (typeof CLOUD_BLOCKS)[number]): CloudPart {
  const found = schoolClassOf(night)
  const lines = (what: 'do' | 'say', count: number): string[] =>
    Array.from({ length: count }, (_, i) =>
      words.say(`cloud-hour.${key}-${what}-${i + 1}${skyPart(key, what, i, night)}`),
    )
  const { does, says } = LINES[key]
  return {
    time: words.say('teacher.minutes', { from: fromMin, to: toMin }),
    clock: found && words.time(new Date(found.startsAt.getTime() + fromMin * MINUTE_MS), night.site.zone),
    title: words.say(`cloud-hour.${key}`),
    does: lines('do', does),
    says: lines('say', says),
  }
}

/** The patterns that are told of are those of the half of the sky that the place sees. */
const skyPart = (key: CloudBlock, what: 'do' | 'say', at: number, { site }: Night): string =>
  key === 'story' && what === 'say' && at === 0 ? (site.latitudeDeg < 0 ? '-south' : '-north') : ''
