import type { Socket } from 'node:net'
import { type Heard, listen, type Place, phoneAddress } from '../bench/crowd.ts'

/** Pages that listen and, once they are cut off, come back with the version that each has heard last. */
export interface ComingBack {
  open(): Promise<void>
  cut(): void
}

export function comingBack(place: Place, count: number, heard: Heard): ComingBack {
  const versions = Array.from({ length: count }, () => place.version)
  let sockets: readonly Socket[] = []

  const openOne = (version: string, i: number): Promise<Socket> =>
    listen(
      { ...place, version },
      phoneAddress(i),
      heard,
      wholeEvents((newest) => {
        versions[i] = newest
      }),
    )

  return {
    async open() {
      sockets = await Promise.all(versions.map(openOne))
    },
    cut() {
      for (const socket of sockets) socket.destroy()
    },
  }
}

/** Tells the version of each event that has come to its end: of one that is cut off in the middle nothing is known. */
function wholeEvents(told: (version: string) => void): (text: string) => void {
  let rest = ''
  return (text) => {
    const all = rest + text
    const end = all.lastIndexOf('\n\n')
    rest = end < 0 ? all : all.slice(end + 1)
    const at = end < 0 ? -1 : all.lastIndexOf('\nid: ', end)
    if (at >= 0) told(all.slice(at + 5, all.indexOf('\n', at + 5)))
  }
}
