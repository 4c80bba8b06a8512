/** The networks that the shop may pick for its stations. */
import type { NetworkInterfaceInfo } from 'node:os';
import { expect, it } from 'vitest';
import { isLocalAddress } from '../../../src/bridge/authority/constraints.ts';
import { networksOf } from '../../../src/desk/stations/networks.ts';
import { freshDesk } from '../fresh-desk.ts';

const info = (address: string, internal = false): NetworkInterfaceInfo => ({
  address, internal, family: address.includes(':') ? 'IPv6' : 'IPv4', cidr: null, mac: '', netmask: '', scopeid: 0,
}) as NetworkInterfaceInfo; // prettier-ignore

it('lists local networks by name, this computer alone last', () => {
  const interfaces = {
    lo: [info('127.0.0.1', true), info('::1', true)],
    'Wi-Fi': [info('fe80::1'), info('192.168.1.5')],
    Ethernet: [info('10.0.0.7'), info('8.8.8.8')],
    gone: undefined,
  };
  expect(networksOf(interfaces)).toEqual([
    { name: 'Ethernet', address: '10.0.0.7', onlyHere: false },
    { name: 'Wi-Fi', address: '192.168.1.5', onlyHere: false },
    { name: 'lo', address: '127.0.0.1', onlyHere: true },
  ]);
});

it('lists the addresses that a certificate may name, and no other', () => {
  const edges = [
    '9.255.255.255', '10.0.0.0', '10.255.255.255', '11.0.0.0', '100.63.0.1', '100.64.0.0', '100.99.0.1', '100.100.0.1',
    '100.127.255.255', '100.128.0.0', '126.0.0.1', '127.0.0.1', '169.253.0.1', '169.254.0.1', '169.255.0.1', '172.15.0.1',
    '172.16.0.1', '172.29.0.1', '172.31.255.255', '172.32.0.1', '192.0.2.2', '192.167.0.1', '192.168.0.1', '192.169.0.1',
  ]; // prettier-ignore
  for (const address of edges)
    expect([address, networksOf({ one: [info(address)] }).length]).toEqual([
      address,
      Number(isLocalAddress(address)),
    ]);
});

it('is asked by the window', async () => {
  const shop = await freshDesk();
  const found = await shop.call('stations.listNetworks', {});
  expect(found.some(({ onlyHere }) => onlyHere)).toBe(true);
  shop.desk.close();
});
