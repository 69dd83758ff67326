interface Floor {
  readonly name: string
  /** The oldest version without a known hole. */
  readonly least: string
  /** Whether the product has it; a floor for one that it does without holds from the day it comes in. */
  readonly isUsed: boolean
  /** What is known against older ones: advisory, and the version that mended it. */
  readonly known: readonly string[]
}

/** Versions that the lock file may not go below, and why. From the issue threads of the packages, not from the pages of the advisories. */
const FLOORS: readonly Floor[] = [
  {
    name: 'fastify',
    least: '5.8.5',
    isUsed: true,
    known: [
      'CVE-2025-32442: checks of a body passed by an altered content type (5.3.2)',
      'CVE-2026-25223: the same by a tab in it (5.7.2)',
      'CVE-2026-25224: memory without limit when a web stream is sent (5.7.3)',
      'GHSA-573f-x89g-hqp9: malformed content type',
      'CVE-2026-3635, GHSA-444r-cwp2-x5xf: forwarded protocol and host believed (5.8.3)',
      'CVE-2026-33806, GHSA-247c-9743-5963: checks of a body passed by a leading space (5.8.5)',
    ],
  },
  {
    name: '@fastify/static',
    least: '10.1.3',
    isUsed: false,
    known: [
      'GHSA-pr96-94w5-mx2h: folders listed outside the root (9.1.1)',
      'CVE-2026-6414, GHSA-x428-ghpx-8j92: encoded separators (9.1.1)',
      'CVE-2026-15074, GHSA-83w8-p2f5-377r: the guard against dots passed (10.1.1)',
      'CVE-2026-7120, GHSA-8pvw-jcv7-9cmj: the list of allowed paths passed (10.1.3)',
    ],
  },
  { name: '@fastify/view', least: '11.1.1', isUsed: true, known: ['none found; the oldest looked at is 11.1.1'] },
  {
    name: 'handlebars',
    least: '4.7.10',
    isUsed: true,
    known: [
      'CVE-2026-33937: code run from a tree given to compile (4.7.9)',
      'CVE-2026-33916: partials found through a polluted prototype (4.7.9)',
      'CVE-2026-33941: code put in through its command line (4.7.9)',
      '4.7.10 came after these, its reason not found',
    ],
  },
  {
    name: 'better-sqlite3',
    least: '12.11.1',
    isUsed: true,
    known: ['sqlite.org/wal.html, walresetbug: SQLite below 3.51.3 can damage a database; 12.11.1 brings 3.53.2'],
  },
  {
    name: 'luxon',
    least: '3.2.1',
    isUsed: true,
    known: ['CVE-2023-22467: a date that takes for ever to read (3.2.1), from memory'],
  },
]

export interface Lock {
  readonly packages: Readonly<Record<string, { readonly version?: string }>>
}

/** One sentence for each package of a lock file that is below its floor or not where it is expected. */
export function tooOld({ packages }: Lock): string[] {
  return FLOORS.flatMap(({ name, least, isUsed, known }) => {
    const found = Object.entries(packages).filter(([path]) => path.endsWith(`node_modules/${name}`))
    if (isUsed && found.length === 0) return [`${name} is not in the lock file`]
    return found
      .filter(([, { version = '' }]) => !isAtLeast(version, least))
      .map(([path, { version }]) => `${path} ${version} is below ${least}: ${known.join('; ')}`)
  })
}

/** Whether a version is a given one or a later one; one of a trial (`5.8.5-rc.1`) never is. */
function isAtLeast(version: string, least: string): boolean {
  if (!/^\d+\.\d+\.\d+$/.test(version)) return false
  const [ours, floor] = [version, least].map((text) => text.split('.').map(Number))
  const differs = ours?.findIndex((part, i) => part !== floor?.[i]) ?? -1
  return differs === -1 || (ours?.[differs] ?? 0) > (floor?.[differs] ?? 0)
}
