import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { BackupStatus } from '../../desk/backups.ts'
import type { ApiNeeds } from './needs.ts'

export const healthRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock }) => {
  app.get(
    '/health',
    {
      config: { role: 'visitor' },
      schema: { summary: 'Version, clock, catalogue counts, storage settings and copies' },
    },
    async () => ({
      ...desk.health(),
      clockSpeed: clock.speed,
      zone: 'UTC',
      backups: backupHealth(desk.backups.status()),
    }),
  )
}

/** Whether copies are made, without the places where they lie. */
const backupHealth = ({ isTimed, lastAt, isLate, trouble, second }: BackupStatus) => ({
  isTimed,
  lastAt,
  isLate,
  trouble,
  second,
})
