/** Where a program listens, as Linux tells it. */
import { readdirSync, readFileSync, readlinkSync } from 'node:fs';

/** State of a listening socket in `/proc/PID/net/tcp`: TCP_LISTEN of Linux's include/net/tcp_states.h. */
const LISTENING = '0A';

/** Addresses and ports on which a process listens, sorted: `127.0.0.1:8123`, and those of IPv6 as the kernel writes them. */
export function listeningAt(pid: number): string[] {
  const links = readdirSync(`/proc/${pid}/fd`).map((fd) => linkOf(`/proc/${pid}/fd/${fd}`));
  const own = new Set(links.flatMap((link) => /^socket:\[(\d+)\]$/.exec(link)?.[1] ?? []));
  return ['tcp', 'tcp6']
    .flatMap((kind) => readFileSync(`/proc/${pid}/net/${kind}`, 'utf8').split('\n').slice(1))
    .map((line) => line.trim().split(/\s+/))
    .filter(([, , , state, , , , , , inode]) => state === LISTENING && own.has(inode ?? ''))
    .map(([, local = '']) => addressOf(local))
    .toSorted();
}

/** A file may be closed while it is looked at. */
function linkOf(path: string): string {
  try {
    return readlinkSync(path);
  } catch {
    return '';
  }
}

/** `0100007F:1FBB`: the address backward, and the port. */
function addressOf(local: string): string {
  const [address = '', port = ''] = local.split(':');
  const bytes =
    address
      .match(/../g)
      ?.map((byte) => parseInt(byte, 16))
      .toReversed() ?? [];
  return `${bytes.length === 4 ? bytes.join('.') : address}:${parseInt(port, 16)}`;
}
