import type { StationLineState } from '../../bridge/contract.ts';

type OpenLine = Extract<StationLineState, { state: 'open' }>;

/**
 * The short address that a device opens: that of the chosen network, which plain HTTP leads to the page about trust.
 * @param chosen the shop's choice; the router may have given out another address since
 * @example lineAddress(line, '192.168.1.5') // 'http://192.168.1.5:47115/'
 */
export function lineAddress({ addresses, port }: OpenLine, chosen: string | null): string {
  const known = addresses.find((one) => one === chosen);
  const address = known ?? addresses.find((one) => !one.includes(':')) ?? addresses[0] ?? '';
  return `http://${address.includes(':') ? `[${address}]` : address}:${port}/`;
}

/**
 * The address as a square code says it: capitals take less room, and mean the same up to the #.
 * @param code of pairing, which the station's page takes from there (`src/ui/station/pairing`); without one, the page about trust
 * @returns null for an IPv6 address, whose brackets our square codes lack
 * @example scannedAddress('http://10.0.0.7:47115/', 'BCDFGHJK') // 'HTTPS://10.0.0.7:47115/#p=BCDFGHJK'
 */
export function scannedAddress(address: string, code?: string): string | null {
  if (address.includes('[')) return null;
  if (code === undefined) return address.toUpperCase();
  return `${address.replace('http:', 'https:').toUpperCase()}#p=${code}`;
}

/** Where hunters check in on their own phones, while the shop lets them. */
export const phoneAddress = (line: OpenLine, chosen: string | null): string =>
  `${lineAddress(line, chosen)}check-in`;

/** The same by this computer's name, which not every device knows. */
export const namedAddress = ({ host, port }: OpenLine): string => `http://${host}:${port}/`;
