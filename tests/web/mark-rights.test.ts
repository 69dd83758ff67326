import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { MARK_KINDS, type MarkKind } from '../../server/tours/mark.ts'
import { joinedDesk, OWN, OWN_TOUR } from '../support/joined-night.ts'
import { HOST, LAN_HOST, PHONE, type TestApp, testApp } from '../support/web.ts'

const ACTORS = ['operator', 'helper', 'hostPhone', 'host'] as const
type Actor = (typeof ACTORS)[number]
const ANYONE: readonly Actor[] = ['operator', 'helper', 'hostPhone', 'host']
const THE_HOST: readonly Actor[] = ['hostPhone', 'host']
const WAYS = ['the API', 'a form'] as const

/** Who may make each kind of act, written down here once more by hand, and one act of the kind. */
const KINDS: Readonly<
  Record<
    Exclude<MarkKind, 'undo'>,
    { readonly by: readonly Actor[]; readonly atStation: boolean; readonly payload: object }
  >
> = {
  showing: { by: ANYONE, atStation: true, payload: { targetKey: 'm13', aim: 'whole' } },
  shown: { by: ANYONE, atStation: true, payload: { targetKey: 'm13' } },
  skipped: { by: ANYONE, atStation: true, payload: { targetKey: 'm13', why: 'cloud' } },
  trouble: { by: ANYONE, atStation: true, payload: { what: 'help' } },
  seen: { by: ANYONE, atStation: true, payload: { targetKey: 'm13', who: 'they' } },
  timed: { by: ANYONE, atStation: true, payload: { people: 10, seconds: 420 } },
  counted: { by: ANYONE, atStation: false, payload: { adults: 4, children: 3 } },
  clouds: { by: ANYONE, atStation: false, payload: { shut: ['w', 'nw'], minutes: 30 } },
  station: { by: THE_HOST, atStation: true, payload: { is: 'out' } },
  accepted: { by: THE_HOST, atStation: false, payload: { tourId: OWN_TOUR.id } },
  dropped: { by: THE_HOST, atStation: false, payload: { tourId: OWN_TOUR.id } },
}

let door: Awaited<ReturnType<typeof joinedDesk>>
let service: TestApp
let cells = 0
beforeAll(async () => {
  door = await joinedDesk()
  service = await testApp({ desk: door.desk })
})
afterAll(async () => {
  console.log(`${MARK_KINDS.length} kinds, ${ACTORS.length} roles, ${WAYS.length} ways: ${cells} cells`)
  await service.app.close()
  door.close()
})

let count = 0
const newKey = (): string => `act-${String(++count).padStart(6, '0')}`
const keys = (): string[] => door.desk.marks.since(OWN.id, 0).map(({ key }) => key)
const actOf = (kind: Exclude<MarkKind, 'undo'>) => ({
  key: newKey(),
  kind,
  stationId: KINDS[kind].atStation ? 'station-1' : null,
  payload: KINDS[kind].payload,
  secondsAgo: 0,
})
const undoOf = (markKey: string) => ({
  key: newKey(),
  kind: 'undo',
  stationId: null,
  payload: { markKey },
  secondsAgo: 0,
})
type Act = ReturnType<typeof actOf> | ReturnType<typeof undoOf>

/** Sends an act and answers the status with which it was met. */
async function send(way: (typeof WAYS)[number], actor: Actor, act: Act): Promise<number> {
  cells += 1
  const [remoteAddress, host] = actor === 'host' ? ['127.0.0.1', HOST] : [PHONE, LAN_HOST]
  const headers = { host, origin: `http://${host}`, cookie: `duskrow-session=${door.now[actor]}` }
  const asked =
    way === 'the API'
      ? { url: `/api/nights/${OWN.id}/marks`, headers, payload: { marks: [act] } }
      : { url: `/field/${OWN.id}/marks`, headers: { ...headers, 'content-type': FORM }, payload: formOf(act) }
  return (await service.app.inject({ method: 'POST', remoteAddress, ...asked })).statusCode
}
const FORM = 'application/x-www-form-urlencoded'

function formOf({ key, kind, stationId, payload }: Act): string {
  const form = new URLSearchParams({ key, kind, stationId: stationId ?? '' })
  for (const [name, value] of Object.entries(payload))
    for (const each of [value].flat()) form.append(name, String(each))
  return form.toString()
}

const KEPT = { 'the API': 200, 'a form': 303 } as const

/** What became of an act: kept, or refused with nothing kept. */
async function becameOf(way: (typeof WAYS)[number], actor: Actor, act: Act): Promise<string> {
  const before = keys()
  const status = await send(way, actor, act)
  const added = keys().slice(before.length)
  if (status === KEPT[way] && added.join() === act.key) return 'kept'
  return status === 422 && added.length === 0 ? 'refused' : `${status}, kept ${added.join()}`
}

const names = Object.keys(KINDS) as (keyof typeof KINDS)[]

describe.each(WAYS)('by %s', (way) => {
  it.each(names)('an act of the kind %s is kept from just those who may make it', async (kind) => {
    for (const actor of ACTORS) {
      const expected = KINDS[kind].by.includes(actor) ? 'kept' : 'refused'
      expect(await becameOf(way, actor, actOf(kind)), actor).toBe(expected)
    }
  })

  it.each(names)('an act of the kind %s is taken back, and put back, by just those who may make it', async (kind) => {
    for (const actor of ACTORS) {
      const expected = KINDS[kind].by.includes(actor) ? 'kept' : 'refused'
      const [act, again] = [actOf(kind), actOf(kind)]
      await send('the API', 'host', act)
      expect(await becameOf(way, actor, undoOf(act.key)), `undo by ${actor}`).toBe(expected)
      await send('the API', 'host', again)
      const undo = undoOf(again.key)
      await send('the API', 'host', undo)
      expect(await becameOf(way, actor, undoOf(undo.key)), `undo of the undo by ${actor}`).toBe(expected)
    }
  })

  it('an undo of what nobody did is kept from no one', async () => {
    for (const actor of ACTORS) expect(await becameOf(way, actor, undoOf('nobody-did-this')), actor).toBe('refused')
  })
})

describe('an act', () => {
  it('is kept with the name of whoever made it', async () => {
    const [mine, hosts] = [actOf('showing'), actOf('station')]
    await send('the API', 'operator', mine)
    await send('a form', 'host', hosts)
    const byKey = new Map(door.desk.marks.since(OWN.id, 0).map(({ key, by }) => [key, by]))
    expect([byKey.get(mine.key), byKey.get(hosts.key)]).toEqual(['Ada', 'host'])
  })

  it('that is not theirs keeps no other from being kept', async () => {
    const [good, wrong] = [actOf('showing'), actOf('station')]
    const answer = await service.app.inject({
      method: 'POST',
      url: `/api/nights/${OWN.id}/marks`,
      remoteAddress: PHONE,
      headers: { host: LAN_HOST, origin: `http://${LAN_HOST}`, cookie: `duskrow-session=${door.now.helper}` },
      payload: { marks: [wrong, good] },
    })
    expect(answer.json()).toMatchObject({
      kept: [{ key: good.key }],
      refused: [{ key: wrong.key, problems: [{ field: 'kind', code: 'problem.not-yours' }] }],
    })
  })
})
