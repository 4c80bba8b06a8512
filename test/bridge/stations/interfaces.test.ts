/** Which names and addresses this computer has on the network that the shop chose. */
import type { NetworkInterfaceInfo } from 'node:os';
import { describe, expect, it } from 'vitest';
import { localName, namesAt } from '../../../src/bridge/stations/interfaces.ts';

function at(cidr: string): NetworkInterfaceInfo {
  const address = cidr.split('/')[0] ?? '';
  const more = { address, cidr, netmask: '', mac: '00:00:00:00:00:00', internal: false };
  return address.includes(':') ? { ...more, family: 'IPv6', scopeid: 0 } : { ...more, family: 'IPv4' };
}
const INTERFACES = {
  lo: [at('127.0.0.1/8'), at('::1/128')],
  wifi: [at('192.168.1.5/24'), at('fd00:1::5/64'), at('fe80::5/64'), at('2001:db8::5/64')],
  cable: [at('10.0.0.7/16')],
  office: [at('203.0.113.4/24')],
};
const names = (chosen: string) => namesAt(chosen, INTERFACES, 'Desk');

describe('the addresses', () => {
  it('are those of the chosen interface that a certificate may name and a browser can open', () => {
    expect(names('192.168.1.5')).toEqual({ host: 'desk.local', addresses: ['192.168.1.5', 'fd00:1::5'] });
    expect(names('fd00:1::5')).toEqual(names('192.168.1.5'));
    expect(names('10.0.0.7')?.addresses).toEqual(['10.0.0.7']);
  });

  it('are the new ones after the router gave out another address of the same network', () => {
    expect(names('192.168.1.99')).toEqual(names('192.168.1.5'));
    expect(names('10.0.200.1')?.addresses).toEqual(['10.0.0.7']);
  });

  it('are none on another network, and none of the internet', () => {
    for (const chosen of ['192.168.2.5', '10.1.0.7', '203.0.113.4', 'fd00:2::5', 'nothing', ''])
      expect(names(chosen)).toBeNull();
  });

  it('are any of this computer alone, which the system does not list', () => {
    expect(names('127.0.0.2')?.addresses).toEqual(['127.0.0.2']);
  });
});

it.each([
  ['desk', 'desk.local'],
  ["Ann's PC", 'ann-s-pc.local'],
  ['ANN-PC.shop.example', 'ann-pc.local'],
  ['--', 'gambrel.local'],
  ['', 'gambrel.local'],
  ['bücher', 'b-cher.local'],
])('the computer %j is %s on its network', (host, name) => {
  expect(localName(host)).toBe(name);
});
