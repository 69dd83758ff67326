import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readConfig } from '../server/config.ts'
import { dataFolder } from '../server/preflight/folder.mjs'

const read = (...args: string[]) => readConfig(args, {})

describe('the settings', () => {
  it('are the laptop alone, port 8080, its own clock and the PIN of before, when nothing is said', () => {
    const config = read()
    expect(config).toMatchObject({ port: 8080, isLan: false, names: [], clock: { isRehearsal: false, speed: 1 } })
    expect(config.pin).toBeNull()
    expect(config.version).toMatch(/^\d+\.\d+\.\d+$/)
  })

  it('come from the flags', () => {
    const config = read('--data', 'x', '--port', '9000', '--lan', '--name', 'tour.example', '--pin', '271828')
    expect(config).toMatchObject({ folder: 'x', port: 9000, isLan: true, names: ['tour.example'], pin: '271828' })
  })

  it('name a second folder for copies from the root of the disk, or none', () => {
    expect(read().backUpTo).toBeNull()
    expect(read('--backup-to', '/media/stick/copies').backUpTo).toBe('/media/stick/copies')
    expect(read('--backup-to', 'copies').backUpTo).toBe(join(process.cwd(), 'copies'))
  })

  it('take the data folder from the environment, below a flag', () => {
    expect(readConfig([], { DUSKROW_DATA: 'y' }).folder).toBe('y')
    expect(readConfig(['--data', 'x'], { DUSKROW_DATA: 'y' }).folder).toBe('x')
  })

  it('start a rehearsal at the instant given, as fast as asked', () => {
    const { clock } = read('--clock', '2026-11-14T18:20:00+01:00', '--speed', '60')
    expect(clock).toMatchObject({ isRehearsal: true, speed: 60 })
    expect(clock.now().getTime() - Date.UTC(2026, 10, 14, 17, 20)).toBeLessThan(60_000)
  })

  it.each([
    [['--port', '80808'], '--port'],
    [['--port', '-1'], '--port'],
    [['--port', '1e3'], '--port'],
    [['--pin', '12345'], '--pin'],
    [['--pin', 'secret'], '--pin'],
    [['--clock', 'tonight'], '--clock'],
    [['--clock', '2026-11-14T18:20'], '--clock'],
    [['--speed', '0'], '--speed'],
    [['--speed', 'fast'], '--speed'],
    [['--name', 'http://tour.example'], '--name'],
    [['--colour', 'red'], '--colour'],
    [['tonight'], 'tonight'],
  ])('refuse %j in a sentence that names it', (args, name) => {
    expect(() => read(...args)).toThrow(name)
  })

  it('keep data where each system keeps it', () => {
    expect(dataFolder({ LOCALAPPDATA: 'C:\\local' }, 'win32')).toMatch(/^C:\\local.Duskrow$/)
    expect(dataFolder({}, 'darwin')).toMatch(/Library\/Application Support\/Duskrow$/)
    expect(dataFolder({ XDG_DATA_HOME: '/data' }, 'linux')).toBe('/data/duskrow')
    expect(dataFolder({}, 'linux')).toMatch(/\.local\/share\/duskrow$/)
  })
})
