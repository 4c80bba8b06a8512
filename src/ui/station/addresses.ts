/** Where the desk may be: another address of the shop's computer, tried besides those known. */
import { keepPairing } from './kept/pairing.ts';
import { useLine } from './line.ts';

/** A name or an address, as it stands in one: `192.168.1.5`, `desk.local`, `[fd00::5]`. */
const HOST = /^(?:[a-z\d](?:[a-z\d.-]*[a-z\d])?|\[[\da-f:]+\])$/i;

/** The most that are kept besides the page's own. */
const MOST = 12;

/** Known origins with those that the desk told: the page's own first, then the newest. */
export function withAddresses(known: readonly string[], told: readonly string[]): string[] {
  const [own, ...others] = known;
  const newest = [...told, ...others].filter((one) => one !== own);
  return [...(own === undefined ? [] : [own]), ...new Set(newest)].slice(0, MOST + 1);
}

/**
 * Takes an address that somebody typed, with or without `https://` and port. The port never changes: it is part of what the
 * page may call (src/bridge/stations/headers.ts).
 * @returns whether it is one
 */
export async function addAddress(typed: string): Promise<boolean> {
  const line = useLine();
  const host = typed.trim().replace(/^https?:\/\//, '').replace(/\/.*$/, '').replace(/:\d+$/, ''); // prettier-ignore
  if (!HOST.test(host) || !line.pairing) return false;
  const origin = `https://${host.toLowerCase()}:${location.port}`;
  const addresses = [...line.pairing.addresses.filter((one) => one !== origin), origin];
  line.pairing = { ...line.pairing, addresses };
  await keepPairing(line.pairing);
  line.hurry();
  return true;
}
