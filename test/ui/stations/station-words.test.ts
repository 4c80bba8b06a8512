import { expect, it } from 'vitest';
import type { StationRow } from '../../../src/bridge/contract.ts';
import { lineAddress, namedAddress, scannedAddress } from '../../../src/ui/stations/line-address.ts';
import { deviceOf, groupsOf, stateText } from '../../../src/ui/stations/station-words.ts';

const LINE = {
  state: 'open', host: 'desk.local', addresses: ['fd00::5', '192.168.1.5', '192.168.1.6'], port: 47_115,
  fingerprints: { sha256: '', sha1: '' }, isNew: false,
} as const; // prettier-ignore

it.each([
  ['the chosen address', '192.168.1.6', 'http://192.168.1.6:47115/'],
  ['a short one where the router gave out another', '192.168.1.99', 'http://192.168.1.5:47115/'],
  ['an IPv6 address in brackets', 'fd00::5', 'http://[fd00::5]:47115/'],
])('the address that a device opens is %s', (_, chosen, address) => {
  expect(lineAddress(LINE, chosen)).toBe(address);
});

it.each([
  ['http://10.0.0.7:47115/', undefined, 'HTTP://10.0.0.7:47115/'],
  ['http://10.0.0.7:47115/', 'BCDFGHJK', 'HTTPS://10.0.0.7:47115/#p=BCDFGHJK'],
  ['http://[fd00::5]:47115/', undefined, null],
])('%s with the code %s is scanned as %s', (address, code, scanned) => {
  expect(scannedAddress(address, code)).toBe(scanned);
});

it('the name leads there too', () => {
  expect(namedAddress(LINE)).toBe('http://desk.local:47115/');
});

it('a fingerprint is read in groups of four pairs', () => {
  expect(groupsOf('AA:BB:CC:DD:EE:FF:00:11:22')).toEqual(['AA:BB:CC:DD', 'EE:FF:00:11', '22']);
});

it.each([
  ['Mozilla/5.0 (iPad; CPU OS 18_4 like Mac OS X) AppleWebKit/605.1.15', 'iPad'],
  ['Mozilla/5.0 (Linux; Android 15; SM-X210) AppleWebKit/537.36', 'Android'],
  ['Mozilla/5.0 (Windows NT 10.0; Win64; x64)', 'Windows'],
  ['Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Version/18.4 Safari/605.1.15', 'Mac / iPad'],
  ['<b>Table</b>', ''],
])('%s is %s', (agent, device) => {
  expect(deviceOf(agent)).toBe(device);
});

it.each([
  [{ state: 'open', connected: true, lastSeen: null }, 'Connected'],
  [
    { state: 'open', connected: false, lastSeen: '2026-11-24T20:15:00Z' },
    'Away since <2026-11-24T20:15:00Z>',
  ],
  [{ state: 'open', connected: false, lastSeen: null }, 'Not seen since Gambrel started'],
  [{ state: 'paused', connected: false, lastSeen: null }, 'Paused'],
] as const)('%j is told as %s', (row, said) => {
  expect(stateText(row as unknown as StationRow, (iso) => `<${iso}>`)).toBe(said);
});
