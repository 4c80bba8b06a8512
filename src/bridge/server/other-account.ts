/**
 * Whether the other end of a line belongs to another account of this computer. The address that a browser is opened with
 * stands in the list of processes for a moment, where others could read its code and be quicker than the browser. Linux
 * tells for every socket whose it is (proc_net_tcp, the kernel's documentation); elsewhere nobody is told apart.
 */
import { readFile } from 'node:fs/promises';
import type { Socket } from 'node:net';
import { endianness } from 'node:os';

const TABLES = ['/proc/net/tcp', '/proc/net/tcp6'];
const ROOT = 0;

/** False as well where the system does not tell. */
export async function isOfOtherAccount({ remoteAddress, remotePort, localPort }: Socket): Promise<boolean> {
  if (process.platform !== 'linux' || !remoteAddress || !remotePort || !localPort) return false;
  const ends = { address: remoteAddress, port: remotePort, ourPort: localPort };
  for (const table of TABLES) {
    const account = accountIn(await readFile(table, 'latin1').catch(() => ''), ends);
    if (account !== null) return !mayCome(account, process.geteuid?.() ?? ROOT, process.env['SUDO_UID']);
  }
  return false;
}

/**
 * The account that holds the socket at `address` and `port` which is connected to `ourPort`; null where it is not in the table.
 * Row of a table: number, own end, other end, state, queues, timer, retransmissions, account, …; an end is the address in
 * hexadecimal, in the byte order of the machine, and the port. IPv6 holds the IPv4 address in its last four bytes.
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

/** Root reads everything anyway, and relays lines in some systems; a person who used `sudo` has a browser of their own account. */
export function mayCome(account: number, ours: number, sudo: string | undefined): boolean {
  return account === ours || account === ROOT || (ours === ROOT && String(account) === sudo);
}

function hexOf(address: string): string {
  const bytes = address.split('.').map((byte) => Number(byte).toString(16).padStart(2, '0'));
  return (endianness() === 'LE' ? bytes.toReversed() : bytes).join('').toUpperCase();
}

function hexOfPort(port: number): string {
  return port.toString(16).padStart(4, '0').toUpperCase();
}
