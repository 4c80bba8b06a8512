import type { StationRow } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/stations.ts';

/** Names of systems as their makers write them. An iPad's browser may say that it is a Mac. */
const SYSTEMS = [
  ['iPad', /iPad/],
  ['iPhone', /iPhone/],
  ['Android', /Android/],
  ['Windows', /Windows/],
  ['Mac / iPad', /Macintosh/],
  ['ChromeOS', /CrOS/],
  ['Linux', /Linux/],
] as const;

/**
 * What a device is, by what its browser says of itself; empty where it does not tell.
 * @example deviceOf('Mozilla/5.0 (Windows NT 10.0)') // 'Windows'
 */
export function deviceOf(agent: string): string {
  return SYSTEMS.find(([, pattern]) => pattern.test(agent))?.[0] ?? '';
}

/** Whether a station works now. @param moment writes a moment in the shop's zone */
export function stateText(
  { state, connected, lastSeen }: StationRow,
  moment: (iso: string) => string,
): string {
  if (state === 'paused') return text.paused;
  if (connected) return text.connected;
  return lastSeen === null ? text.notSeen : text.away({ when: moment(lastSeen) });
}

/** What a station holds that is not in the book, as it last told; empty if nothing. */
export function heldText({ held }: Pick<StationRow, 'held'>): string {
  const parts = [
    held?.waiting && text.notSent({ count: held.waiting }),
    held?.unanswered && text.asked({ count: held.unanswered }),
  ];
  return parts.filter(Boolean).join(' · ');
}

/**
 * A fingerprint in groups of four pairs, which eyes can compare.
 * @example groupsOf('AA:BB:CC:DD:EE') // ['AA:BB:CC:DD', 'EE']
 */
export function groupsOf(fingerprint: string): string[] {
  const pairs = fingerprint.split(':');
  return Array.from({ length: Math.ceil(pairs.length / 4) }, (_, i) =>
    pairs.slice(4 * i, 4 * i + 4).join(':'),
  );
}
