import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Night } from '../../server/tours/night.ts'
import { freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'
import { LAN_HOST, testApp } from '../support/web.ts'
import type { Answered } from './phones-air.ts'

const BEGINS = '2026-12-17T17:20:00Z'

export type PhoneService = Awaited<ReturnType<typeof phoneService>>

/** The service as it is, with wide limits, over a folder of its own; its clock stands where the test puts it. */
export async function phoneService() {
  const folder = freshFolder()
  const clock = standingClock(BEGINS)
  const desk = await openDesk(folder, { clock })
  const { app } = await testApp({ desk, clock })

  return {
    desk,
    clock,
    /** The instant so long after the evening began. */
    instant: (ms: number): Date => new Date(Date.parse(BEGINS) + ms),
    newNight: (): Night => seedEvening(desk, north),

    /** Lets a phone join a night as an operator; answers how it posts its acts. */
    join(night: Night, phone: number): (body: string) => Promise<Answered> {
      const { token: secret } = desk.joins.codes(night.id)
      const address = `127.0.1.${phone + 1}`
      const name = `Phone ${phone}`
      const { token } = desk.joins.join({ secret, name, role: 'operator', phoneMs: null, address })
      return async (payload) => {
        const { statusCode, body } = await app.inject({
          method: 'POST',
          url: `/api/nights/${night.id}/marks`,
          remoteAddress: address,
          headers: {
            host: LAN_HOST,
            origin: `http://${LAN_HOST}`,
            cookie: `duskrow-session=${token}`,
            'content-type': 'application/json',
          },
          payload,
        })
        return { status: statusCode, text: body }
      }
    },

    async close(): Promise<void> {
      await app.close()
      await desk.close()
      removeFolder(folder)
    },
  }
}
