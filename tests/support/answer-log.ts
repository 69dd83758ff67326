/** What was seen of the answers of a service in the log of its system calls. */
export interface AnswerVerdict {
  /** Acts that were answered as kept. */
  readonly acks: number
  /** How many syncs of the write-ahead log brought acts to the disk. */
  readonly syncs: number
  /** The most acts that one sync brought to the disk. */
  readonly mostTogether: number
  /** Acts whose answer left before their own page of the log had been written and synced. */
  readonly early: readonly string[]
}

const CALL = /^(\w+)\(\d+<([^>]*)>/
const KEY = /act-\d{6}/g

/**
 * Reads the calls of the service's main thread one by one. An act is asked for when its key comes in over a connection;
 * it is in the log once its key is written there, and on the disk at the next sync of the log; and it is answered by
 * what is written to its connection next.
 */
export function answerJudge() {
  const asked = new Map<string, string>()
  const known = new Set<string>()
  const onDisk = new Set<string>()
  let written: string[] = []
  const [early, seen] = [[] as string[], { acks: 0, syncs: 0, mostTogether: 0 }]

  function write(line: string): void {
    const fresh = [...new Set(line.match(KEY))].filter((key) => !known.has(key))
    for (const key of fresh) known.add(key)
    written.push(...fresh)
  }

  function sync(): void {
    if (written.length > 0) seen.syncs += 1
    seen.mostTogether = Math.max(seen.mostTogether, written.length)
    for (const key of written) onDisk.add(key)
    written = []
  }

  function answer(connection: string, line: string): void {
    const key = asked.get(connection)
    if (key === undefined || !/"HTTP\/1\.1 (200|303) /.test(line)) return
    asked.delete(connection)
    seen.acks += 1
    if (!onDisk.has(key)) early.push(key)
  }

  return {
    take(line: string): void {
      const [, call = '', file = ''] = CALL.exec(line) ?? []
      if (file.endsWith('-wal')) {
        if (call.startsWith('pwrite')) write(line)
        if (call.endsWith('sync') && line.endsWith('= 0')) sync()
      } else if (/^(TCP|socket):/.test(file)) {
        const [key] = line.match(KEY) ?? []
        if (call === 'read' && key !== undefined) asked.set(file, key)
        if (call.startsWith('write')) answer(file, line)
      }
    },
    verdict: (): AnswerVerdict => ({ ...seen, early }),
  }
}
