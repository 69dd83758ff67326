import { expect, it } from 'vitest'
import { fakeDesk } from '../support/fake-desk.ts'
import { HOST, testApp } from '../support/web.ts'

async function closeDuring(buildMs: number): Promise<{ status: number | null; closedMs: number }> {
  const { desk } = fakeDesk()
  let begin = (): void => {}
  const begun = new Promise<void>((resolve) => {
    begin = resolve
  })
  const tours = {
    ...desk.tours,
    build: async (id: string) => {
      begin()
      await new Promise((done) => setTimeout(done, buildMs))
      return desk.tours.build(id)
    },
  }
  let port = 0
  const { app } = await testApp({ desk: { ...desk, tours }, allowedHosts: () => new Set([HOST, `127.0.0.1:${port}`]) })
  port = Number(new URL(await app.listen({ port: 0, host: '127.0.0.1' })).port)
  const origin = `http://127.0.0.1:${port}`
  const headers = { origin, cookie: 'duskrow-session=a-living-session' }
  const asked = fetch(`${origin}/api/nights/night-1/tour`, { method: 'POST', headers }).then(
    ({ status }) => status,
    () => null,
  )
  await begun
  const startedMs = performance.now()
  await app.close()
  return { status: await asked, closedMs: performance.now() - startedMs }
}

it('lets a request that is under way finish before it closes', async () => {
  const { status, closedMs } = await closeDuring(500)
  expect(status).toBe(201)
  expect(closedMs).toBeLessThan(1_500)
})

it('does not wait for one that takes too long', async () => {
  const { status, closedMs } = await closeDuring(5_000)
  expect(status).toBeNull()
  expect(closedMs).toBeLessThan(2_000)
})
