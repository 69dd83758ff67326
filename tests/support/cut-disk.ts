import type { DiskCall } from './write-log.ts'

/** What a cut leaves of that which was not synced: all, nothing, some of it by chance, or all with the last write torn. */
export const CUTS = ['keep', 'drop', 'some', 'torn'] as const
export type Cut = (typeof CUTS)[number]
/** The files of a folder by name. */
export type Image = ReadonlyMap<string, Buffer>

type Change = Extract<DiskCall, { does: 'write' | 'truncate' }>
type NameChange = Extract<DiskCall, { does: 'make' | 'unlink' }> & { readonly file: CutFile }
const SECTOR_BYTES = 512

interface CutFile {
  live: Buffer
  /** As the disk surely has it. */
  synced: Buffer
  waiting: Change[]
}

const resized = (bytes: Buffer, size: number): Buffer =>
  size <= bytes.length ? bytes.subarray(0, size) : Buffer.concat([bytes, Buffer.alloc(size - bytes.length)])

/** The bytes after a change; they are changed in place where they are long enough. */
function changed(bytes: Buffer, change: Change): Buffer {
  if (change.does === 'truncate') return resized(bytes, change.size)
  const grown = resized(bytes, Math.max(bytes.length, change.at + change.bytes.length))
  change.bytes.copy(grown, change.at)
  return grown
}

const rebuilt = (file: CutFile, changes: readonly Change[]): Buffer => changes.reduce(changed, Buffer.from(file.synced))

/** A folder on a disk that keeps only what was synced: files once they are, names once the folder is. */
export function cutDisk(before: Image) {
  const names = new Map([...before].map(([name, bytes]) => [name, cutFile(bytes)]))
  let syncedNames = new Map(names)
  let waitingNames: NameChange[] = []
  let lastWritten: CutFile | undefined

  function rename(change: NameChange, into: Map<string, CutFile>): void {
    if (change.does === 'make') into.set(change.name, change.file)
    else into.delete(change.name)
  }
  function nameChange(does: 'make' | 'unlink', name: string): void {
    const known = names.get(name)
    if ((does === 'make') === (known !== undefined)) return
    const change = { does, name, file: known ?? cutFile(Buffer.alloc(0)) }
    rename(change, names)
    waitingNames.push(change)
  }
  function sync(file: CutFile): void {
    for (const change of file.waiting) file.synced = changed(file.synced, change)
    file.waiting = []
  }
  function write(file: CutFile, change: Change): void {
    file.live = changed(file.live, change)
    file.waiting.push(change)
    lastWritten = file
  }

  function apply(call: DiskCall): void {
    if (call.does === 'ack') return
    if (call.does === 'sync-folder') {
      syncedNames = new Map(names)
      waitingNames = []
    } else if (call.does === 'make' || call.does === 'unlink') nameChange(call.does, call.name)
    else {
      const file = names.get(call.name)
      if (!file) throw new Error(`${call.name} was never made`)
      if (call.does === 'sync') sync(file)
      else write(file, call)
    }
  }

  function some(random: () => number): Image {
    const left = new Map(syncedNames)
    for (const change of waitingNames) if (random() < 0.5) rename(change, left)
    return imageOf(left, (file) =>
      rebuilt(
        file,
        file.waiting.filter(() => random() < 0.5),
      ),
    )
  }
  const torn = (random: () => number): Image =>
    imageOf(names, (file) => (file === lastWritten ? rebuilt(file, tornLast(file.waiting, random)) : file.live))

  return {
    apply,
    after(cut: Cut, random: () => number): Image {
      if (cut === 'keep') return imageOf(names, ({ live }) => live)
      if (cut === 'drop') return imageOf(syncedNames, ({ synced }) => synced)
      return cut === 'some' ? some(random) : torn(random)
    },
  }
}

const cutFile = (bytes: Buffer): CutFile => ({ live: Buffer.from(bytes), synced: Buffer.from(bytes), waiting: [] })

const imageOf = (names: ReadonlyMap<string, CutFile>, bytesOf: (file: CutFile) => Buffer): Image =>
  new Map([...names].map(([name, file]) => [name, bytesOf(file)]))

function tornLast(waiting: readonly Change[], random: () => number): readonly Change[] {
  const last = waiting.at(-1)
  if (last?.does !== 'write') return waiting
  const sectors = Math.floor(random() * Math.ceil(last.bytes.length / SECTOR_BYTES))
  return [...waiting.slice(0, -1), { ...last, bytes: last.bytes.subarray(0, sectors * SECTOR_BYTES) }]
}
