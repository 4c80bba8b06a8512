/** The names and addresses under which this computer is reached on the network that the shop chose. */
import { BlockList } from 'node:net';
import { hostname, networkInterfaces, type NetworkInterfaceInfo } from 'node:os';
import type { LeafNames } from '../authority/certificates.ts';
import { isLocalAddress } from '../authority/constraints.ts';

type Interfaces = Readonly<Record<string, NetworkInterfaceInfo[] | undefined>>;

/**
 * The local addresses of the interface with the chosen address. After a router gave out another one, it is the
 * interface on the same network. Addresses of the internet are left out: no certificate of ours may name them.
 * @returns null when this computer is not on that network
 */
export function namesAt(
  chosen: string,
  interfaces: Interfaces = networkInterfaces(),
  host = hostname(),
): LeafNames | null {
  const all = Object.values(interfaces).filter((one) => one !== undefined);
  const found =
    all.find((one) => one.some(({ address }) => address === chosen)) ??
    all.find((one) => one.some((info) => isOnNetwork(chosen, info)));
  // The system has every address of 127.0.0.0/8 and lists only the first.
  const addresses = chosen.startsWith('127.')
    ? [chosen]
    : (found ?? []).map(({ address }) => address).filter(isUsable);
  return addresses.length > 0 ? { host: localName(host), addresses } : null;
}

/** A browser cannot open a link-local IPv6 address: it lacks the name of the interface. */
function isUsable(address: string): boolean {
  return isLocalAddress(address) && !/^fe[89ab]/i.test(address);
}

function isOnNetwork(address: string, { cidr, family }: NetworkInterfaceInfo): boolean {
  const [subnet, bits] = cidr?.split('/') ?? [];
  if (!subnet || !bits || address.includes(':') !== (family === 'IPv6')) return false;
  const network = new BlockList();
  const kind = family === 'IPv6' ? 'ipv6' : 'ipv4';
  network.addSubnet(subnet, Number(bits), kind);
  return network.check(address, kind);
}

/** The name that the system itself answers for (RFC 6762). Example: `localName("Ann's PC")` is `ann-s-pc.local`. */
export function localName(host: string): string {
  const label = (host.split('.', 1)[0] ?? '')
    .toLowerCase()
    .replaceAll(/[^a-z\d]+/g, '-')
    .replaceAll(/^-+|-+$/g, '');
  return `${label.slice(0, 63) || 'gambrel'}.local`;
}
