/** The networks of this computer on which devices may reach it. */
import { networkInterfaces, type NetworkInterfaceInfo } from 'node:os';
import * as v from 'valibot';
import type { Network } from '../contract/contract.ts';
import { read } from '../session/procedure.ts';

type Interfaces = Readonly<Record<string, NetworkInterfaceInfo[] | undefined>>;

/**
 * Addresses of local networks: RFC 1918, RFC 6598, RFC 3927; the certificates of stations name no other IPv4 address
 * (`src/bridge/authority/constraints.ts`, which a test compares).
 */
const LOCAL =
  /^(?:10|127|192\.168|169\.254|172\.(?:1[6-9]|2\d|3[01])|100\.(?:6[4-9]|[7-9]\d|1[01]\d|12[0-7]))\./;

/** Those with an IPv4 address, by name; this computer alone, which serves for trying stations out, comes last. */
export function networksOf(interfaces: Interfaces = networkInterfaces()): Network[] {
  return Object.entries(interfaces)
    .flatMap(([name, infos = []]) =>
      infos
        .filter(({ family, address }) => family === 'IPv4' && LOCAL.test(address))
        .map(({ address, internal }): Network => ({ name, address, onlyHere: internal })),
    )
    .toSorted((a, b) => Number(a.onlyHere) - Number(b.onlyHere) || a.name.localeCompare(b.name));
}

export const listNetworks = read(v.object({}), () => networksOf());
