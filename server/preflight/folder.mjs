import { homedir } from 'os'
import { isAbsolute, join } from 'path'

/**
 * Where each system keeps the data of programs: never beside the program itself.
 * @param {Readonly<Record<string, string | undefined>>} env
 * @param {string} platform
 */
export function dataFolder(env, platform) {
  if (platform === 'win32') return join(env.LOCALAPPDATA || join(homedir(), 'AppData', 'Local'), 'Duskrow')
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Duskrow')
  const named = env.XDG_DATA_HOME
  // The convention of these systems says that a name which is not absolute counts as none.
  return join(named && isAbsolute(named) ? named : join(homedir(), '.local', 'share'), 'duskrow')
}

/**
 * The data folder that holds: the one named by a flag, else by the environment, else the usual one of the system.
 * @param {string | null | undefined} named
 * @param {Readonly<Record<string, string | undefined>>} env
 * @param {string} platform
 */
export const chosenFolder = (named, env, platform) => named || env.DUSKROW_DATA || dataFolder(env, platform)

/** Names that services of the cloud give to the folders which they keep in step. */
const IN_STEP =
  /^(onedrive|dropbox|icloud ?drive|google ?drive|my drive|nextcloud|owncloud|pcloud ?drive|megasync|mobile documents|cloudstorage)(?![a-z])/i

/** How Linux numbers the file systems that lie on another machine: NFS, SMB (three), AFS, 9P, Ceph. */
const FAR_FILE_SYSTEMS = [0x6969, 0x517b, 0xfe534d42, 0xff534d42, 0x5346414f, 0x01021997, 0x00c36400]

/**
 * Whether a folder lies where another machine has a hand in it; null for a folder of this machine alone.
 * @param {string} path
 * @param {number | null} fileSystem Its number on Linux, null elsewhere.
 * @returns {'cloud' | 'network' | null}
 */
export function sharedBy(path, fileSystem) {
  if (/^(\\\\|\/\/)[^\\/?.]/.test(path)) return 'network'
  if (fileSystem !== null && FAR_FILE_SYSTEMS.indexOf(fileSystem) >= 0) return 'network'
  return path.split(/[\\/]/).some((name) => IN_STEP.test(name)) ? 'cloud' : null
}
