/** A hole torn on purpose: what is replaced in one file, and the short test that must then turn red. */
export interface Mutant {
  readonly name: string
  readonly file: string
  readonly changes: readonly (readonly [from: string, to: string])[]
  /** Below `tests/`. */
  readonly test: string
  /** Which tests of that file, where the whole would take long. */
  readonly only?: string
}

export const MUTANTS: readonly Mutant[] = [
  {
    name: 'any Host is let in',
    file: 'server/web/door.ts',
    changes: [[' || !hosts.has(host.toLowerCase())', '']],
    test: 'web/door.test.ts',
  },
  {
    name: 'any Origin may change things',
    file: 'server/web/door.ts',
    changes: [['request.headers.origin === `http://$' + '{host}`', 'true']],
    test: 'web/door.test.ts',
  },
  {
    name: 'a template prints raw',
    file: 'views/pages/problem.hbs',
    changes: [['{{message}}', '{{{message}}}']],
    test: 'architecture.test.ts',
    only: 'two templates only',
  },
  {
    name: 'drawings escape nothing',
    file: 'server/drawings/svg.ts',
    changes: [["text.replace(/[&<>\"']/g, (letter) => ESCAPES[letter] ?? '')", 'text']],
    test: 'drawings/skyline-walk.test.ts',
  },
  {
    name: 'a body may be of any size',
    file: 'server/app.ts',
    changes: [['bodyLimit: BODY_LIMIT', 'bodyLimit: 1_000_000_000']],
    test: 'web/wrong-input.test.ts',
  },
  {
    name: 'one address may ask without end',
    file: 'server/web/limits.ts',
    changes: [['max: requests.max', 'max: 1_000_000']],
    test: 'web/sign-in.test.ts',
    only: 'slows down one address',
  },
  {
    name: 'commits are not synced',
    file: 'db/open.ts',
    changes: [
      ["'synchronous = FULL'", "'synchronous = NORMAL'"],
      ['facts.synchronous !== FULL', 'facts.synchronous === 99'],
    ],
    test: 'faults/power-loss.test.ts',
    only: 'a cut of the power',
  },
  {
    name: 'acts are answered before they are kept',
    file: 'server/web/one-commit.ts',
    changes: [['answer = () => resolve(result)', 'resolve(result)']],
    test: 'web/one-commit.test.ts',
  },
  {
    name: 'a key may be used again',
    file: 'server/desk/marks.ts',
    changes: [['const kept = marks.find(key)', "const kept = marks.find('')"]],
    test: 'desk/marks.test.ts',
    only: 'key that is taken',
  },
  {
    name: 'acts of one sending are kept by halves',
    file: 'db/marks.ts',
    changes: [['db.transaction(work).immediate()', 'work()']],
    test: 'faults/storage-fails.test.ts',
    only: 'all kept or none',
  },
  {
    name: 'every role may do all',
    file: 'server/web/roles.ts',
    changes: [['!ALLOWED[needed].includes(roleOf(request))', 'false']],
    test: 'web/rights.test.ts',
    only: 'meets a visitor as',
  },
  {
    name: 'no safe headers',
    file: 'server/web/headers.ts',
    changes: [
      ['response.setHeader(name, value)', 'void [response, name, value]'],
      ['    reply.headers(SAFE_HEADERS)\n', ''],
    ],
    test: 'web/assets.test.ts',
  },
  {
    name: 'any PIN is the right one',
    file: 'server/desk/pin.ts',
    changes: [['timingSafeEqual(known, tried)', 'true']],
    test: 'desk/sessions.test.ts',
    only: 'is refused',
  },
  {
    name: 'acts of other nights may be undone',
    file: 'server/desk/mark-problems.ts',
    changes: [['!mark || marks.find(mark)?.nightId === nightId', 'true']],
    test: 'desk/marks.test.ts',
    only: 'of another night',
  },
  {
    name: 'a phone may take back what it may not do',
    file: 'server/desk/mark-problems.ts',
    changes: [['!mark || mayTakeBack(mark, ground)', 'true']],
    test: 'web/mark-rights.test.ts',
  },
  {
    name: 'two programs may share a data folder',
    file: 'db/lock.ts',
    changes: [["lock.exec('BEGIN EXCLUSIVE')", '']],
    test: 'db/folder.test.ts',
    only: 'one opener',
  },
  {
    name: 'a newer file is opened',
    file: 'db/migrate.ts',
    changes: [['due < 0', 'due < -99']],
    test: 'db/upgrade.test.ts',
    only: 'newer than the program',
  },
  {
    name: 'a copy is not looked through',
    file: 'db/backup.ts',
    changes: [["said !== 'ok'", 'false']],
    test: 'db/backup-check.test.ts',
  },
]
