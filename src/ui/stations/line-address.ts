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

/** The same by this computer's name, which not every device knows. */
export const namedAddress = ({ host, port }: OpenLine): string => `http://${host}:${port}/`;
