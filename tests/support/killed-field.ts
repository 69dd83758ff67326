import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { isDeepStrictEqual } from 'node:util'
import SqliteDatabase from 'better-sqlite3'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { markStore } from '../../db/marks.ts'
import { DATABASE_FILE } from '../../db/open.ts'
import type { Mark, MarkDraft } from '../../server/tours/mark.ts'
import { actOf, type CrowdedNight, EVENING, lineOf } from './crowded-night.ts'
import { ended, startService } from './running-service.ts'

const Told = Type.Object({ marks: Type.Array(Type.Object({ key: Type.String() })) })

/** The phones of a night, each with the act that it has not yet been answered, and a model of what the service must hold. */
export function killedField(night: CrowdedNight) {
  const phones = night.phones.map((joined, i) => ({
    joined,
    key: `phone-${i}`,
    acts: 0,
    waiting: null as MarkDraft | null,
  }))
  const sent = new Map<string, { readonly draft: MarkDraft; readonly by: string }>()
  const acked = new Set<string>()
  const problems: string[] = []
  let kept: readonly Mark[] = []
  let sentAgain = 0

  function newAct(phone: (typeof phones)[number]): MarkDraft {
    phone.acts += 1
    const draft = actOf(`${phone.key}-${String(phone.acts).padStart(5, '0')}`, phone.acts, night)
    sent.set(draft.key, { draft, by: phone.joined.name })
    return draft
  }

  /** A phone sends what waits and then new acts, until it has no more or the line breaks. */
  async function send(phone: (typeof phones)[number], url: string, hasMore: () => boolean, onAck: () => void) {
    const line = lineOf(url, phone.joined)
    try {
      if (phone.waiting !== null) sentAgain += 1
      while (phone.waiting !== null || hasMore()) {
        phone.waiting ??= newAct(phone)
        const body = JSON.stringify({ marks: [phone.waiting] })
        const { status, text } = await line.post(`/api/nights/${night.nightId}/marks`, 'application/json', body)
        if (status !== 200) return void problems.push(`an act was answered ${status}: ${text}`)
        acked.add(phone.waiting.key)
        phone.waiting = null
        onAck()
      }
    } finally {
      line.leave()
    }
  }

  /** Reads the database beside the running service, once this has mended it, and compares it with the model. */
  function look(): void {
    const db = new SqliteDatabase(join(night.folder, DATABASE_FILE), { readonly: true })
    const marks = markStore(db).since(night.nightId, 0)
    const integrity = db.pragma('integrity_check', { simple: true })
    const broken = db.pragma('foreign_key_check') as unknown[]
    db.close()
    const keys = new Set(marks.map(({ key }) => key))
    if (integrity !== 'ok') problems.push(`integrity: ${String(integrity)}`)
    if (broken.length > 0) problems.push(`${broken.length} broken references`)
    if (keys.size < marks.length) problems.push(`${marks.length - keys.size} acts are there twice`)
    if (!isDeepStrictEqual(marks.slice(0, kept.length), kept)) problems.push('acts of before have changed or moved')
    for (const key of acked) if (!keys.has(key)) problems.push(`${key} was answered as kept and is lost`)
    for (const mark of marks) if (!isAsSent(mark)) problems.push(`${mark.key} was not sent, or not so`)
    kept = marks
  }

  function isAsSent({ key, kind, stationId, payload, by }: Mark): boolean {
    const { draft, by: sender } = sent.get(key) ?? {}
    return isDeepStrictEqual([kind, stationId, payload, by], [draft?.kind, draft?.stationId, draft?.payload, sender])
  }

  const start = () => ({ startedMs: performance.now(), ...startService(night.folder, ['--clock', EVENING]) })

  return {
    problems,
    counts: () => ({ acked: acked.size, sentAgain }),

    /** Starts the service and kills it a moment after so many more answers; answers how long the first took from the start. */
    async killAfter(answers: number, afterMs: number): Promise<number> {
      const { startedMs, child, open } = start()
      const { url } = await open
      const killAt = acked.size + answers
      let firstMs = Number.NaN
      let killed: Promise<void> | undefined
      const onAck = () => {
        if (Number.isNaN(firstMs)) {
          firstMs = performance.now() - startedMs
          look()
        }
        if (acked.size >= killAt) killed ??= wait(afterMs).then(() => ended(child))
      }
      const sending = phones.map((phone) =>
        send(phone, url, () => true, onAck).catch((error) => {
          if (killed === undefined) problems.push(`the line to a living service broke: ${error}`)
        }),
      )
      await Promise.all(sending)
      await (killed ?? ended(child))
      if (Number.isNaN(firstMs)) problems.push('no phone was answered after a start')
      return firstMs
    },

    /** Starts the service once more, lets every phone be answered, and looks whether just what was sent is kept. */
    async finish(): Promise<number> {
      const { startedMs, child, open } = start()
      const { url } = await open
      let firstMs = Number.NaN
      const onAck = () => {
        if (Number.isNaN(firstMs)) firstMs = performance.now() - startedMs
      }
      await Promise.all(
        phones.map((phone) => {
          const last = phone.acts + 1
          return send(phone, url, () => phone.acts < last, onAck)
        }),
      )
      look()
      const answer = await fetch(`${url}/api/nights/${night.nightId}/marks`, {
        headers: { cookie: phones[0]?.joined.cookie ?? '' },
      })
      const told = Value.Parse(Told, await answer.json()).marks.map(({ key }) => key)
      if (
        !isDeepStrictEqual(
          told,
          kept.map(({ key }) => key),
        )
      )
        problems.push('the service tells other acts than it holds')
      if (kept.length !== sent.size) problems.push(`${sent.size} acts were sent, ${kept.length} are kept`)
      await ended(child)
      return firstMs
    },
  }
}
