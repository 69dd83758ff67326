import { statfsSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { expect, it } from 'vitest'
import { freeBytes } from '../../server/desk/disk.ts'

it('says what is free on the disk of a folder, and fails for one that is not there', async () => {
  const { bsize, blocks } = statfsSync(tmpdir())
  const free = await freeBytes(tmpdir())
  expect(free).toBeGreaterThan(0)
  expect(free).toBeLessThanOrEqual(bsize * blocks)
  await expect(freeBytes('/no/such/folder')).rejects.toThrow('ENOENT')
})
