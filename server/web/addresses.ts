import type { NetworkInterfaceInfo } from 'node:os'

type Interfaces = NodeJS.Dict<NetworkInterfaceInfo[]>

/** An address by which phones may reach the laptop, and the name of the network it belongs to. */
export interface PhoneAddress {
  readonly network: string
  readonly address: string
}

/** How phones reach the laptop: null while they are not let in at all. */
export interface PhonesWay {
  readonly addresses: () => readonly PhoneAddress[]
  readonly isOpen: boolean
  readonly port: () => number
}

export const NO_WAY: PhonesWay = { addresses: () => [], isOpen: false, port: () => 0 }

/** Networks of which a laptop makes a hotspot itself: Windows, macOS, NetworkManager. */
const HOTSPOTS = ['192.168.137.', '192.168.2.', '10.42.'] as const
/** Networks inside the machine or to an office far away, on which no phone of the field is. */
const INSIDE =
  /^(docker|br-|veth|vethernet|virbr|lxc|lxd|podman|cni|utun|tun|tap|ppp|wg|tailscale|vmnet|vmware|virtualbox|vboxnet|zt|ham|awdl|llw)/i

/** The addresses to offer, the likeliest first: hotspots, then private networks, then others, networks inside the machine last; none that is only of one cable. */
export function phoneAddresses(interfaces: Interfaces): readonly PhoneAddress[] {
  const all = Object.entries(interfaces).flatMap(([network, list]) =>
    (list ?? [])
      .filter(({ family, internal, address }) => family === 'IPv4' && !internal && !address.startsWith('169.254.'))
      .map(({ address }) => ({ network, address })),
  )
  return all.sort((a, b) => rank(a) - rank(b) || compare(a.network, b.network) || compare(a.address, b.address))
}

/** The same with the addresses of one network first, since the host has chosen it. */
export const withFirst = (addresses: readonly PhoneAddress[], network: string | null): readonly PhoneAddress[] => [
  ...addresses.filter((it) => it.network === network),
  ...addresses.filter((it) => it.network !== network),
]

/** `http://192.168.137.1:8080`, without the port where browsers leave it out. */
export const originOf = ({ address }: PhoneAddress, port: number): string =>
  `http://${address}${port === 80 ? '' : `:${port}`}`

function rank({ network, address }: PhoneAddress): number {
  const place = HOTSPOTS.some((start) => address.startsWith(start)) ? 0 : isPrivate(address) ? 1 : 2
  return INSIDE.test(network) ? 3 + place : place
}

/** True in the address ranges of RFC 1918. */
function isPrivate(address: string): boolean {
  const [a = 0, b = 0] = address.split('.').map(Number)
  return a === 10 || (a === 172 && b >= 16 && b <= 31) || (a === 192 && b === 168)
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
