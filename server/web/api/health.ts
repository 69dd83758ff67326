import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { ApiNeeds } from './needs.ts'

export const healthRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock }) => {
  app.get(
    '/health',
    { config: { role: 'visitor' }, schema: { summary: 'Version, clock, catalogue counts and storage settings' } },
    async () => ({ ...desk.health(), clockSpeed: clock.speed, zone: 'UTC' }),
  )
}
