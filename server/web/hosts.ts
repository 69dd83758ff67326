import { hostname, type NetworkInterfaceInfo, networkInterfaces } from 'node:os'

const LOOPBACK_NAMES = ['127.0.0.1', 'localhost', '[::1]'] as const
const STALE_MS = 5_000

type Interfaces = NodeJS.Dict<NetworkInterfaceInfo[]>

/** Every name and address by which this laptop may be called, lower case, without a port. */
export function namesOfThisLaptop(interfaces: Interfaces, host: string, extra: readonly string[]): readonly string[] {
  const addresses = Object.values(interfaces)
    .flatMap((list) => list ?? [])
    .map(({ address, family }) => (family === 'IPv6' ? `[${address.split('%')[0]}]` : address))
  const bare = host.replace(/\.local$/i, '')
  return [...LOOPBACK_NAMES, ...addresses, host, `${bare}.local`, ...extra].map((name) => name.toLowerCase())
}

/** `name:port` for each name, and the bare name as well on port 80, as browsers write it. */
export function hostSet(names: readonly string[], port: number): ReadonlySet<string> {
  const withPort = names.map((name) => `${name}:${port}`)
  return new Set(port === 80 ? [...withPort, ...names] : withPort)
}

/** The Host values that are let in; looked up anew every five seconds, since a hotspot may come up after the service. */
export function allowedHosts(port: () => number, extra: readonly string[]): () => ReadonlySet<string> {
  let known: ReadonlySet<string> = new Set()
  let readAt = Number.NEGATIVE_INFINITY
  return () => {
    if (performance.now() - readAt > STALE_MS) {
      known = hostSet(namesOfThisLaptop(networkInterfaces(), hostname(), extra), port())
      readAt = performance.now()
    }
    return known
  }
}

/** True when a Host header names the laptop itself; the port does not matter here. */
export const isLoopbackHost = (host: string | undefined): boolean =>
  LOOPBACK_NAMES.some((name) => name === host?.toLowerCase().replace(/:\d+$/, ''))

/** True for exactly the laptop's own two addresses; any other 127.x.y.z counts as a phone. */
export const isLoopbackAddress = (address: string | undefined): boolean =>
  address === '127.0.0.1' || address === '::1' || address === '::ffff:127.0.0.1'
