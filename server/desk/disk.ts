import { statfs } from 'node:fs/promises'

/** The bytes that are free on the disk of a folder, for whoever runs the service. */
export async function freeBytes(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder)
  return bavail * bsize
}
