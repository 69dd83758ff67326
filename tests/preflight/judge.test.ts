import { describe, expect, it } from 'vitest'
import { flagOf, serviceOf } from '../../server/preflight/facts.mjs'
import { dataFolder, sharedBy } from '../../server/preflight/folder.mjs'
import { type Facts, judge } from '../../server/preflight/judge.mjs'
import { nodeProblem } from '../../server/preflight/modules.mjs'

const MB = 1e6
const WELL: Facts = {
  nodeVersion: 'v22.22.2',
  engines: '>=20.19 <27',
  root: '/home/mirela/duskrow',
  hasPackages: true,
  databaseError: null,
  command: 'npm start',
  keepsData: true,
  platform: 'linux',
  year: 2026,
  folder: { path: '/home/mirela/.local/share/duskrow', error: null, freeBytes: 5_000 * MB, fileSystem: 0xef53 },
  port: { port: 8080, error: null, ours: null },
}
const folder = (changed: Partial<Facts['folder']>): Partial<Facts> => ({ folder: { ...WELL.folder, ...changed } })
const port = (error: string, ours: 'evening' | 'rehearsal' | null = null, at = 8080): Partial<Facts> => ({
  port: { port: at, error, ours },
})
const judged = (changed: Partial<Facts>) => judge({ ...WELL, ...changed })

describe('what is in the way of a start', () => {
  it('is nothing on a laptop that is well', () => {
    expect(judge(WELL)).toEqual({ problems: [], warnings: [], openAt: null })
    expect(judged({ port: null }).problems).toEqual([])
  })

  it.each<[string, Partial<Facts>, RegExp]>([
    ['an old Node', { nodeVersion: 'v12.22.12' }, /^Node v12\.22\.12 is too old: .*20\.19.*: npm ci$/],
    ['no packages', { hasPackages: false }, /not installed\. Run in \/home\/mirela\/duskrow: npm ci$/],
    ['no database module', { databaseError: "Cannot find module 'better-sqlite3'" }, /is missing.*: npm ci$/],
    [
      'a database module that was never built',
      { databaseError: 'Could not locate the bindings file. Tried:\n → /x' },
      /was not built.*: npm rebuild better-sqlite3 \(.*npm install-scripts approve better-sqlite3\)\.$/,
    ],
    [
      'one that was built for another Node',
      { databaseError: 'was compiled against a different Node.js version using\nNODE_MODULE_VERSION 115.' },
      /another version of Node.*: npm rebuild better-sqlite3$/,
    ],
    [
      'one in a folder of an unusual name',
      { databaseError: 'Could not locate the bindings file.', root: '/home/mirela/duskrow (1)' },
      /Brackets, accents .* likely cause/,
    ],
    ['one that is broken', { databaseError: 'invalid ELF header\nmore' }, /cannot be used: invalid ELF header\. Run/],
    ['a folder that cannot be written', folder({ error: 'EACCES' }), /cannot be written \(EACCES\).*--data DIR$/],
    ['a full disk', folder({ freeBytes: 49.9 * MB }), /^Only 49 MB are free .* 50 MB are the least/],
    [
      'another program on the port',
      port('EADDRINUSE'),
      /another program.*ss -ltnp sport = :8080.*npm start -- --port 8081$/,
    ],
    ['a port of the system', port('EACCES', null, 80), /Port 80 may not be used.*--port 8080$/],
  ])('is %s, in one sentence that says how to mend it', (_name, changed, said) => {
    const { problems, openAt } = judged(changed)
    expect(problems).toEqual([expect.stringMatching(said)])
    expect(problems[0]?.split('\n')).toHaveLength(1)
    expect(openAt).toBeNull()
  })

  it('is said all at once', () => {
    const { problems } = judged({
      nodeVersion: 'v18.0.0',
      hasPackages: false,
      ...folder({ error: 'EROFS' }),
      ...port('EADDRINUSE'),
    })
    expect(problems).toHaveLength(4)
  })

  it('names the command of each system that tells who holds a port', () => {
    expect(judged({ ...port('EADDRINUSE'), platform: 'win32' }).problems[0]).toContain('netstat -ano | findstr :8080')
    expect(judged({ ...port('EADDRINUSE'), platform: 'darwin' }).problems[0]).toContain('lsof -nP -iTCP:8080')
    expect(judged(port('EADDRINUSE', null, 65_535)).problems[0]).toContain('--port 65534')
  })

  it('is no trouble when it is open already, except for the demo, on a rehearsal and beside other trouble', () => {
    expect(judged(port('EADDRINUSE', 'evening'))).toMatchObject({
      problems: [],
      openAt: expect.stringContaining('http://127.0.0.1:8080.'),
    })
    const demo = judged({ ...port('EADDRINUSE', 'evening'), keepsData: false, command: 'npm run demo' })
    expect(demo.problems).toEqual([
      expect.stringMatching(/a Duskrow that is open already.*npm run demo -- --port 8081$/),
    ])
    expect(judged(port('EADDRINUSE', 'rehearsal')).problems).toEqual([expect.stringContaining('only rehearses')])
    expect(judged({ ...port('EADDRINUSE', 'evening'), hasPackages: false })).toMatchObject({ openAt: null })
  })
})

describe('a warning', () => {
  it.each<[string, Partial<Facts>, RegExp]>([
    ['a disk that is nearly full', folder({ freeBytes: 199 * MB }), /^Only 199 MB are free/],
    ['a folder in a cloud', folder({ path: '/Users/mirela/Dropbox (Private)/duskrow' }), /cloud service.*--data DIR$/],
    ['a folder on a network drive', folder({ fileSystem: 0x6969 }), /network drive.*--data DIR$/],
    ['a Node under which the database module aborts', { nodeVersion: 'v24.21.0' }, /may end the program.*: npm ci$/],
    ['a clock that lost its battery', { year: 2000 }, /the year 2000/],
  ])('tells of %s and lets it start', (_name, changed, said) => {
    expect(judged(changed)).toEqual({ problems: [], warnings: [expect.stringMatching(said)], openAt: null })
  })
})

describe('the facts', () => {
  it.each([
    ['v20.18.3', 'too old'],
    ['v19.99.0', 'too old'],
    ['v20.19.0', null],
    ['v26.4.1', null],
    ['v27.0.0', 'too new'],
  ])('of Node %s are judged by the range of package.json', (version, fault) => {
    const said = nodeProblem(version, '>=20.19 <27')
    if (fault === null) expect(said).toBeNull()
    else expect(said).toContain(fault)
  })

  it.each<[string, number | null, 'cloud' | 'network' | null]>([
    ['C:\\Users\\Mirela\\OneDrive - Lower School\\duskrow', null, 'cloud'],
    ['/Users/mirela/Library/Mobile Documents/com~apple~CloudDocs/duskrow', null, 'cloud'],
    ['C:\\Users\\Mirela\\iCloudDrive\\x', null, 'cloud'],
    ['\\\\server\\nights\\duskrow', null, 'network'],
    ['\\\\?\\C:\\duskrow', null, null],
    ['/home/mirela/dropboxes/duskrow', 0xef53, null],
    ['/mnt/c/duskrow', 0x01021997, 'network'],
    ['/Users/mirela/Library/Application Support/Duskrow', null, null],
  ])('of the folder %s tell who shares it', (path, fileSystem, shared) => {
    expect(sharedBy(path, fileSystem)).toBe(shared)
  })

  it('take no empty and no relative name for the usual folder of data', () => {
    expect(dataFolder({ XDG_DATA_HOME: '' }, 'linux')).toMatch(/\.local\/share\/duskrow$/)
    expect(dataFolder({ XDG_DATA_HOME: 'data' }, 'linux')).toMatch(/\.local\/share\/duskrow$/)
    expect(dataFolder({ LOCALAPPDATA: '' }, 'win32')).toMatch(/AppData.Local.Duskrow$/)
  })

  it('read a flag in both ways of writing it, and know our own service by its answer', () => {
    expect(flagOf(['--lan', '--port', '9000'], '--port')).toBe('9000')
    expect(flagOf(['--port=9001', '--data', 'x'], '--port')).toBe('9001')
    expect(flagOf(['--port'], '--port')).toBeNull()
    const health = (isRehearsal: boolean) => JSON.stringify({ isRehearsal, clockSpeed: 1, sqlite: {} })
    expect([serviceOf(health(false)), serviceOf(health(true))]).toEqual(['evening', 'rehearsal'])
    for (const other of ['', 'hello', 'null', '{"status":"ok"}']) expect(serviceOf(other)).toBeNull()
  })
})
