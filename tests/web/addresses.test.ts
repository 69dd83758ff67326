import type { NetworkInterfaceInfo } from 'node:os'
import { describe, expect, it } from 'vitest'
import { originOf, phoneAddresses, withFirst } from '../../server/web/addresses.ts'

const net = { netmask: '255.255.255.0', mac: '02:00:00:00:00:01', internal: false, cidr: null }

/** An interface as the system lists it: `lo` is marked as internal, what holds a colon is the newer protocol. */
const listed = (name: string, addresses: readonly string[]): NetworkInterfaceInfo[] =>
  addresses.map((address) =>
    address.includes(':')
      ? { ...net, address, family: 'IPv6', scopeid: 2 }
      : { ...net, address, family: 'IPv4', internal: address.startsWith('127.') || name === 'lo' },
  )

type Table = Readonly<Record<string, readonly string[]>>
const LINUX: Table = { lo: ['127.0.0.1', '::1'] }
const MAC: Table = { lo0: ['127.0.0.1', '::1', 'fe80::1'] }
const WINDOWS: Table = { 'Loopback Pseudo-Interface 1': ['::1', '127.0.0.1'] }

/** Tables in the form in which systems give them, written by hand, with the networks that are offered, the likeliest first. */
const TABLES: readonly (readonly [what: string, table: Table, offered: readonly string[]])[] = [
  ['nothing but itself, on Linux', LINUX, []],
  ['nothing but itself, on a Mac', MAC, []],
  ['nothing but itself, on Windows', WINDOWS, []],
  ['Wi-Fi at home', { ...LINUX, wlan0: ['192.168.1.23', 'fe80::23'] }, ['wlan0 192.168.1.23']],
  ['Wi-Fi with a long name', { ...LINUX, wlp0s20f3: ['192.168.0.14'] }, ['wlp0s20f3 192.168.0.14']],
  ['its own hotspot on Linux', { ...LINUX, wlp2s0: ['10.42.0.1'] }, ['wlp2s0 10.42.0.1']],
  ['a second hotspot on Linux', { ...LINUX, wlp2s0: ['10.42.1.1'] }, ['wlp2s0 10.42.1.1']],
  [
    'a hotspot by Wi-Fi and the house by cable',
    { ...LINUX, enp3s0: ['192.168.178.20'], wlp2s0: ['10.42.0.1'] },
    ['wlp2s0 10.42.0.1', 'enp3s0 192.168.178.20'],
  ],
  [
    'its own hotspot on Windows',
    { ...WINDOWS, 'Local Area Connection* 10': ['192.168.137.1', 'fe80::a'], 'Wi-Fi': ['192.168.1.7'] },
    ['Local Area Connection* 10 192.168.137.1', 'Wi-Fi 192.168.1.7'],
  ],
  ['Wi-Fi on Windows', { ...WINDOWS, 'Wi-Fi': ['192.168.178.31'] }, ['Wi-Fi 192.168.178.31']],
  ['a translated name on Windows', { ...WINDOWS, WLAN: ['192.168.178.31'] }, ['WLAN 192.168.178.31']],
  [
    'a shared connection on a Mac',
    { ...MAC, en0: ['192.168.178.40'], bridge100: ['192.168.2.1'] },
    ['bridge100 192.168.2.1', 'en0 192.168.178.40'],
  ],
  ['Wi-Fi on a Mac', { ...MAC, en0: ['10.0.1.5', 'fe80::5'], awdl0: ['fe80::6'], llw0: ['fe80::7'] }, ['en0 10.0.1.5']],
  ['the hotspot of an iPhone', { ...MAC, en0: ['172.20.10.4'] }, ['en0 172.20.10.4']],
  ['the hotspot of an Android phone', { ...LINUX, wlan0: ['192.168.43.112'] }, ['wlan0 192.168.43.112']],
  ['a school', { ...WINDOWS, Ethernet: ['172.16.8.200'] }, ['Ethernet 172.16.8.200']],
  ['the last private address of its range', { ...LINUX, eth0: ['172.31.255.254'] }, ['eth0 172.31.255.254']],
  [
    'an address just outside the private range',
    { ...LINUX, eth0: ['172.32.0.5'], wlan0: ['192.168.9.9'] },
    ['wlan0 192.168.9.9', 'eth0 172.32.0.5'],
  ],
  ['a university with public addresses', { ...LINUX, eth0: ['141.30.2.9'] }, ['eth0 141.30.2.9']],
  ['a mobile modem', { ...LINUX, wwan0: ['100.80.3.2'], wlan0: ['10.9.9.9'] }, ['wlan0 10.9.9.9', 'wwan0 100.80.3.2']],
  ['a cable into nothing', { ...LINUX, eth0: ['169.254.12.7'] }, []],
  [
    'a cable into nothing beside Wi-Fi',
    { ...WINDOWS, Ethernet: ['169.254.1.1'], 'Wi-Fi': ['10.1.1.1'] },
    ['Wi-Fi 10.1.1.1'],
  ],
  ['only the newer protocol', { ...LINUX, wlan0: ['fe80::1', '2001:db8::7'] }, []],
  [
    'containers',
    { ...LINUX, docker0: ['172.17.0.1'], 'br-4f2a': ['172.18.0.1'], wlan0: ['192.168.1.2'] },
    ['wlan0 192.168.1.2', 'br-4f2a 172.18.0.1', 'docker0 172.17.0.1'],
  ],
  [
    'containers of another make',
    { ...LINUX, podman0: ['10.88.0.1'], eth0: ['10.0.0.3'] },
    ['eth0 10.0.0.3', 'podman0 10.88.0.1'],
  ],
  [
    'machines within the machine on Linux',
    { ...LINUX, virbr0: ['192.168.122.1'], vboxnet0: ['192.168.56.1'], wlan0: ['192.168.1.2'] },
    ['wlan0 192.168.1.2', 'vboxnet0 192.168.56.1', 'virbr0 192.168.122.1'],
  ],
  [
    'machines within the machine on Windows',
    {
      ...WINDOWS,
      'vEthernet (WSL)': ['172.29.64.1'],
      'vEthernet (Default Switch)': ['172.25.0.1'],
      'Wi-Fi': ['192.168.0.2'],
    },
    ['Wi-Fi 192.168.0.2', 'vEthernet (Default Switch) 172.25.0.1', 'vEthernet (WSL) 172.29.64.1'],
  ],
  [
    'two more makes of them',
    { ...WINDOWS, 'VMware Network Adapter VMnet8': ['192.168.88.1'], 'VirtualBox Host-Only Network': ['192.168.56.1'] },
    ['VMware Network Adapter VMnet8 192.168.88.1', 'VirtualBox Host-Only Network 192.168.56.1'],
  ],
  [
    'a machine within the machine that looks like a hotspot',
    { ...MAC, vmnet1: ['192.168.2.1'], en0: ['141.30.2.9'] },
    ['en0 141.30.2.9', 'vmnet1 192.168.2.1'],
  ],
  [
    'a way to an office by utun',
    { ...MAC, utun3: ['10.8.0.6'], en0: ['192.168.1.5'] },
    ['en0 192.168.1.5', 'utun3 10.8.0.6'],
  ],
  [
    'a way to an office by tun',
    { ...LINUX, tun0: ['10.8.0.6'], wlan0: ['192.168.1.5'] },
    ['wlan0 192.168.1.5', 'tun0 10.8.0.6'],
  ],
  [
    'a way to an office by wg',
    { ...LINUX, wg0: ['10.6.0.2'], wlan0: ['10.7.0.2'] },
    ['wlan0 10.7.0.2', 'wg0 10.6.0.2'],
  ],
  [
    'a way home',
    { ...LINUX, tailscale0: ['100.101.3.4'], wlan0: ['10.7.0.2'] },
    ['wlan0 10.7.0.2', 'tailscale0 100.101.3.4'],
  ],
  [
    'two addresses of one network',
    { ...LINUX, wlan0: ['192.168.1.2', '10.42.0.1'] },
    ['wlan0 10.42.0.1', 'wlan0 192.168.1.2'],
  ],
  [
    'two networks alike, in the order of their names',
    { ...LINUX, wlan1: ['192.168.1.3'], eth0: ['192.168.1.2'] },
    ['eth0 192.168.1.2', 'wlan1 192.168.1.3'],
  ],
]

describe('the addresses for phones', () => {
  it.each(TABLES)('on a laptop with %s', (_what, table, offered) => {
    const interfaces = Object.fromEntries(Object.entries(table).map(([name, all]) => [name, listed(name, all)]))
    const found = phoneAddresses(interfaces)
    expect(found.map(({ network, address }) => `${network} ${address}`)).toEqual(offered)
  })

  it('bear an interface that went away while it was read', () =>
    expect(phoneAddresses({ wlan0: undefined })).toEqual([]))
})

describe('the network that the host has chosen', () => {
  const two = [
    { network: 'wlan0', address: '10.42.0.1' },
    { network: 'eth0', address: '192.168.1.2' },
  ]

  it('comes first with all its addresses, and one that is gone changes nothing', () => {
    expect(withFirst(two, 'eth0').map(({ network }) => network)).toEqual(['eth0', 'wlan0'])
    expect(withFirst(two, 'gone')).toEqual(two)
    expect(withFirst(two, null)).toEqual(two)
  })

  it('is written with its port, but for the one that browsers leave out', () => {
    const [first] = two
    expect(first && [originOf(first, 8080), originOf(first, 80)]).toEqual(['http://10.42.0.1:8080', 'http://10.42.0.1'])
  })
})
