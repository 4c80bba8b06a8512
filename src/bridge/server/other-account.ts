/**
 * Whether the peer of a socket belongs to another account of this computer. The address that a browser is opened
 * with is briefly visible in the process list, where others could read its code and use it first. Linux reports the
 * owner of every socket (proc_net_tcp, the kernel's documentation); other systems do not.
 */
import { readFile } from 'node:fs/promises';
import type { Socket } from 'node:net';
import { endianness } from 'node:os';

const TABLES = ['/proc/net/tcp', '/proc/net/tcp6'];
const ROOT = 0;

/** Also false where the system does not report it. */
export async function isOfOtherAccount({ remoteAddress, remotePort, localPort }: Socket): Promise<boolean> {
  if (process.platform !== 'linux' || !remoteAddress || !remotePort || !localPort) return false;
  const ends = { address: remoteAddress, port: remotePort, ourPort: localPort };
  for (const table of TABLES) {
    const account = accountIn(await readFile(table, 'latin1').catch(() => ''), ends);
    if (account !== null)
      return !isAllowedAccount(account, process.geteuid?.() ?? ROOT, process.env['SUDO_UID']);
  }
  return false;
}

/**
 * The account that owns the socket at `address` and `port` connected to `ourPort`; null if it is not in the table.
 * Row of a table: number, local end, remote end, state, queues, timer, retransmissions, account, …; an end is the
 * address in hexadecimal, in the byte order of the machine, and the port. IPv6 holds the IPv4 address in its last
 * four bytes.
 */
export function accountIn(
  table: string,
  { address, port, ourPort }: { address: string; port: number; ourPort: number },
): number | null {
  const own = `${hexOf(address)}:${hexOfPort(port)}`;
  const other = `:${hexOfPort(ourPort)}`;
  for (const row of table.split('\n')) {
    const fields = row.trim().split(/\s+/);
    if (fields[1]?.endsWith(own) && fields[2]?.endsWith(other)) return Number(fields[7]);
  }
  return null;
}

/**
 * Root can read everything anyway, and relays connections in some systems; a person who used `sudo` has a browser
 * of their own account.
 */
export function isAllowedAccount(account: number, ours: number, sudo: string | undefined): boolean {
  return account === ours || account === ROOT || (ours === ROOT && String(account) === sudo);
}

function hexOf(address: string): string {
  const bytes = address.split('.').map((byte) => Number(byte).toString(16).padStart(2, '0'));
  return (endianness() === 'LE' ? bytes.toReversed() : bytes).join('').toUpperCase();
}

function hexOfPort(port: number): string {
  return port.toString(16).padStart(4, '0').toUpperCase();
}
