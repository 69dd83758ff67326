import { describe, expect, it } from 'vitest'
import { hostSet, isLoopbackAddress, isLoopbackHost, namesOfThisLaptop } from '../../server/web/hosts.ts'

const net = { netmask: '', mac: '', internal: false, cidr: null }
const INTERFACES = {
  lo: [{ ...net, address: '127.0.0.1', family: 'IPv4' as const }],
  wlan0: [
    { ...net, address: '192.168.137.1', family: 'IPv4' as const },
    { ...net, address: 'fe80::1%wlan0', family: 'IPv6' as const, scopeid: 3 },
  ],
  gone: undefined,
}

describe('the names of this laptop', () => {
  it('are its loopback names, its addresses, its host name with and without .local, and one more', () => {
    const names = namesOfThisLaptop(INTERFACES, 'Meadow', ['Tour.example'])
    for (const name of [
      'localhost',
      '127.0.0.1',
      '[::1]',
      '192.168.137.1',
      '[fe80::1]',
      'meadow',
      'meadow.local',
      'tour.example',
    ]) {
      expect(names).toContain(name)
    }
    expect(namesOfThisLaptop({}, 'meadow.local', [])).not.toContain('meadow.local.local')
  })

  it('carry the port, but on port 80', () => {
    expect([...hostSet(['meadow'], 8080)]).toEqual(['meadow:8080'])
    expect([...hostSet(['meadow'], 80)]).toEqual(['meadow:80', 'meadow'])
  })
})

describe('loopback', () => {
  it.each(['127.0.0.1', '::1', '::ffff:127.0.0.1'])('is the address %s', (address) =>
    expect(isLoopbackAddress(address)).toBe(true),
  )
  it.each(['127.0.0.2', '127.1.0.1', '::ffff:127.0.0.2', '10.0.0.1', '', undefined])(
    'is not the address %s',
    (address) => expect(isLoopbackAddress(address)).toBe(false),
  )
  it.each(['localhost:8080', 'LOCALHOST', '127.0.0.1:80', '[::1]:8080'])('is the Host %s', (host) =>
    expect(isLoopbackHost(host)).toBe(true),
  )
  it.each(['127.0.0.2:80', 'localhost.evil.example', 'evil.example:127', '', undefined])('is not the Host %s', (host) =>
    expect(isLoopbackHost(host)).toBe(false),
  )
})
