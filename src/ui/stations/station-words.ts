import type { StationRow } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/stations.ts';

/** Whether a station works now. @param moment writes a moment in the shop's zone */
export function stateText(
  { state, connected, lastSeen }: StationRow,
  moment: (iso: string) => string,
): string {
  if (state === 'paused') return text.paused;
  if (connected) return text.connected;
  return lastSeen === null ? text.notSeen : text.away({ when: moment(lastSeen) });
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
