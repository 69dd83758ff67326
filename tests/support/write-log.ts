import { basename } from 'node:path'
import { straceLog } from './strace-log.ts'

/** One thing that a process asked of the disk, or told its reader. Names are those of files inside one folder. */
export type DiskCall =
  | { readonly does: 'write'; readonly name: string; readonly at: number; readonly bytes: Buffer }
  | { readonly does: 'truncate'; readonly name: string; readonly size: number }
  | { readonly does: 'sync'; readonly name: string }
  | { readonly does: 'make'; readonly name: string }
  | { readonly does: 'unlink'; readonly name: string }
  | { readonly does: 'sync-folder' }
  | { readonly does: 'ack'; readonly key: string }

const WHOLE = ['-xx', '-s', '70000', '-e', 'trace=openat,pwrite64,write,fsync,fdatasync,ftruncate,unlink,rename']
/** The database, its journal and its log; the shared memory is never read after a cut, and the lock holds nothing. */
const OURS = /^duskrow\.db(-wal|-journal)?$/

const plain = (hex: string): Buffer => Buffer.from(hex.replaceAll('\\x', ''), 'hex')

/** Runs a program under strace and answers what its main thread asked of `folder`, in order. */
export function writeLog(logs: string, folder: string, command: readonly string[]): readonly DiskCall[] {
  return straceLog(logs, command, WHOLE)
    .split('\n')
    .flatMap((line) => callOf(line, folder) ?? [])
}

function callOf(line: string, folder: string): DiskCall | undefined {
  const [, call = '', asked = '', answer = ''] = /^(\w+)\((.*)\)\s+= (\S+)/.exec(line) ?? []
  if (call === '' || answer.startsWith('-')) return undefined
  const texts = [...asked.matchAll(/"([^"]*)"/g)].map(([, hex = '']) => plain(hex))
  if (call === 'openat') return asked.includes('O_CREAT') ? ours('make', texts[0]?.toString(), folder) : undefined
  if (call === 'unlink') return ours('unlink', texts[0]?.toString(), folder)
  if (call === 'rename') throw new Error('A rename inside the folder is not expected while marks are taken')
  return onOpenFile(call, asked, answer, texts[0] ?? Buffer.alloc(0), folder)
}

function onOpenFile(call: string, asked: string, answer: string, bytes: Buffer, folder: string): DiskCall | undefined {
  const [, fd = '', hex = ''] = /^(\d+)<([^>]*)>/.exec(asked) ?? []
  if (call === 'write') return fd === '1' ? ackOf(bytes.toString()) : undefined
  const path = plain(hex).toString()
  if (path === folder && call.endsWith('sync')) return { does: 'sync-folder' }
  const name = basename(path)
  if (path !== `${folder}/${name}` || !OURS.test(name)) return undefined
  if (call.endsWith('sync')) return { does: 'sync', name }
  const last = Number(/(\d+)$/.exec(asked)?.[1])
  if (call === 'ftruncate') return { does: 'truncate', name, size: last }
  return { does: 'write', name, at: last, bytes: bytes.subarray(0, Number(answer)) }
}

function ackOf(said: string): DiskCall | undefined {
  const [, key] = /^ack (\S+)\n$/.exec(said) ?? []
  return key === undefined ? undefined : { does: 'ack', key }
}

function ours(does: 'make' | 'unlink', path = '', folder: string): DiskCall | undefined {
  const name = basename(path)
  return path === `${folder}/${name}` && OURS.test(name) ? { does, name } : undefined
}
