import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { copiesAmong, copyName } from '../../db/copies.ts'
import { copiesToCarry, secondFolder } from '../../db/second-folder.ts'

let root = ''
let stick = ''
const at = (minute: number) => new Date(Date.UTC(2026, 11, 17, 17, minute))
const copyOf = (minute: number): string => {
  const path = join(root, copyName('timed', at(minute)))
  writeFileSync(path, `a copy of ${minute}`)
  return path
}
const onStick = () => readdirSync(stick).filter((name) => name !== 'duskrow-copies.txt')
const whole = { home: tmpdir(), isWhole: async () => true }
const failing = (code: string) => () => Promise.reject(Object.assign(new Error(code), { code }))

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  stick = join(root, 'stick')
  mkdirSync(stick)
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

describe('the second folder', () => {
  it('is never made, and taken into use when it appears later', async () => {
    rmSync(stick, { recursive: true })
    const second = secondFolder(stick, whole)
    await second.check()
    await second.bringUpToDate([copyOf(0)])
    expect(second.state()).toMatchObject({ trouble: 'missing', lastAt: null })
    expect(readdirSync(root)).not.toContain('stick')
    mkdirSync(stick)
    await second.bringUpToDate([copyOf(0)])
    expect(second.state()).toMatchObject({ trouble: null, lastAt: at(0) })
  })

  it.each([
    ['ENOSPC', 'full'],
    ['EROFS', 'not-writable'],
    ['EIO', 'failed'],
  ])('says of %s that it is %s, leaves nothing unfinished, and goes on afterwards', async (code, trouble) => {
    let copy: (() => Promise<void>) | undefined = failing(code)
    const second = secondFolder(stick, {
      ...whole,
      copy: (from, to) => copy?.() ?? Promise.resolve(writeFileSync(String(to), String(from))),
    })
    await second.check()
    await second.bringUpToDate([copyOf(0)])
    expect([second.state().trouble, onStick()]).toEqual([trouble, []])
    copy = undefined
    await second.bringUpToDate([copyOf(0)])
    expect([second.state().trouble, onStick().length]).toEqual([null, 1])
  })

  it('gives no name to a copy that is not whole there, and removes what a pulled stick left half', async () => {
    const second = secondFolder(stick, { ...whole, isWhole: async () => false })
    await second.check()
    writeFileSync(join(stick, `${copyName('timed', at(3))}.unfinished`), 'half')
    await second.bringUpToDate([copyOf(0)])
    expect([second.state().trouble, onStick()]).toEqual(['failed', []])
  })

  // A folder that certainly lies elsewhere than any folder of temporary files.
  it.skipIf(!existsSync('/proc'))('knows whether it lies on the disk of the data folder', async () => {
    const isOnSameDisk = async (home: string) => {
      const second = secondFolder(stick, { ...whole, home })
      await second.check()
      return second.state().isOnSameDisk
    }
    expect([await isOnSameDisk(root), await isOnSameDisk('/proc')]).toEqual([true, false])
  })

  it('keeps ten, and leaves files alone that are none of its own', async () => {
    const second = secondFolder(stick, whole)
    await second.check()
    writeFileSync(join(stick, 'holiday.db'), 'not ours')
    for (let minute = 0; minute < 12; minute++) await second.bringUpToDate([copyOf(minute)])
    expect(onStick()).toHaveLength(11)
    expect(onStick()).toContain('holiday.db')
    expect(copiesAmong(onStick()).at(-1)?.madeAt).toEqual(at(2))
  })
})

it('carries the newest timed copy, and all that are kept apart', () => {
  const names = [copyName('timed', at(1)), copyName('timed', at(2)), copyName('before-migration-3', at(0)), 'x.db']
  expect(copiesToCarry(copiesAmong(names)).map(({ name }) => name)).toEqual([names[1], names[2]])
})
