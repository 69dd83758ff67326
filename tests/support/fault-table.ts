/** What is promised of reliability and security: the figure asked, and the files whose tests reach for it. */
export interface Promised {
  readonly row: number
  readonly promise: string
  readonly asked: string
  /** Below `tests/`; [] while no test exists. */
  readonly files: readonly string[]
}

/** Every promise, by its row. A row whose tests come in several files has each of them record a part. */
export const PROMISES: readonly Promised[] = [
  row(1, 'A mark is on the disk before the phone is told so', '10,000 of 10,000 answers, none before its sync', [
    'long/saved-first.test.ts',
  ]),
  row(2, 'A killed service loses nothing', '300 kills, 30,000 marks told as kept, 0 lost, invented or doubled', [
    'long/killed-service.test.ts',
  ]),
  row(3, 'A power cut loses nothing', '5,000 states of the disk, 0 violations, every mutant found', [
    'long/power-loss.test.ts',
  ]),
  row(4, 'Bad Wi-Fi loses and doubles nothing', '100,000 taps, 30 % of requests gone wrong, 200 seeds', [
    'long/faulty-phones.test.ts',
  ]),
  row(5, 'Every failure of the storage is handled', '100 % of the steps, no answer that all is well', [
    'faults/storage-fails.test.ts',
    'long/full-disk.test.ts',
  ]),
  row(6, 'Undoing and late arrivals end the same', '20,000 sequences of acts, fold equal to the database', [
    'long/act-orders.test.ts',
  ]),
  row(7, 'A phone that was away catches up', '500 times, 40 phones, all equal within 3 s', ['long/offline.test.ts']),
  row(8, 'Pages need no secure context', 'every browser test, 0 uses of what is missing', ['long/secure-only.test.ts']),
  row(9, 'What waits on a phone outlives its page', '300 runs, 0 lost, 0 doubled', ['long/outbox.test.ts']),
  row(10, 'Going back to a copy works', '200 of 200 drills, marks at most 2 times slower', ['long/backups.test.ts']),
  row(11, 'An older data folder is carried over safely', 'killed at 100 % of the statements, never between', [
    'long/upgrade.test.ts',
  ]),
  row(12, 'The service lasts a night', '30 min for 8 h: memory within 20 %, 0 failures', ['long/lasting.test.ts']),
  row(13, 'Everyone may do just what their role allows', '100 % of the cells, 0 routes unlisted', [
    'web/rights.test.ts',
  ]),
  row(14, 'No other page acts in a host’s name', '400 cells or more, 0 let in wrongly, 0 changes', [
    'web/door-acts.test.ts',
    'long/other-origin.test.ts',
  ]),
  row(15, 'What people type stays text', '10,000 strings, 0 other elements, 0 scripts run', ['long/typed.test.ts']),
  row(16, 'No request breaks the service', '1,000,000 requests, 0 failures, 0 prototypes changed', [
    'long/odd-requests.test.ts',
  ]),
  row(17, 'Slow and greedy clients do not stop the night', '1,000 slow, 200 slow readers: 0 marks lost', [
    'long/greedy-clients.test.ts',
  ]),
  row(18, 'Codes are not guessed, and nobody is locked out', 'odds below one in a million in 10 h', [
    'long/guessed-codes.test.ts',
  ]),
  row(19, 'Known holes stay shut', 'all green, 12 or more mutants found', ['long/mutants.test.ts']),
  row(
    20,
    'It is fast enough, measured fairly',
    'cached page 0.8 of a constant reply, made anew 0.25, mark 0.5 of raw syncs, 40 within 500 ms, 500 streams within 300 ms',
    ['long/speed.test.ts'],
  ),
]

function row(number: number, promise: string, asked: string, files: readonly string[]): Promised {
  return { row: number, promise, asked, files }
}
