/** Loads and loggers' files for tests. */
import { uploadFile } from '../import/import-file.ts';
import type { FreshDesk } from '../fresh-desk.ts';
import { stuffed } from './made-of.ts';

/** A corner of a curve: minutes after six in the morning of October 9, and °F. */
export type Corner = readonly [minutes: number, f: number];

/** Two hours to 130 °F, 160 °F after three and a half, then cold by half past three: it meets option 1. */
export const GOOD: readonly Corner[] = [
  [0, 40],
  [120, 130],
  [200, 160],
  [230, 160],
  [245, 130],
  [320, 80],
  [560, 38],
];

/** It stays at 139 °F for two minutes, where 15 are needed, and cools. */
export const SHORT: readonly Corner[] = [
  [0, 40],
  [120, 130],
  [130, 139],
  [132, 139],
  [141, 130],
  [216, 80],
  [456, 38],
];

/** A reading every so many minutes along straight lines. */
export function readingsAlong(corners: readonly Corner[], every = 1): Corner[] {
  const last = corners.at(-1)?.[0] ?? 0;
  return Array.from({ length: Math.floor(last / every) + 1 }, (_, i): Corner => {
    const at = i * every;
    const to = corners.findIndex(([minutes]) => minutes >= at);
    const [after, before] = [corners[to] ?? [0, 0], corners[Math.max(0, to - 1)] ?? [0, 0]];
    const part = after[0] === before[0] ? 0 : (at - before[0]) / (after[0] - before[0]);
    return [at, Number((before[1] + part * (after[1] - before[1])).toFixed(1))];
  });
}

const two = (n: number): string => String(n).padStart(2, '0');

/** As a logger writes it, month first, on the shop's clock. */
export function logFile(
  readings: readonly (readonly [number, number | string])[],
  heading = 'Temp (F)',
): string {
  const rows = readings.map(([minutes, value]) => {
    const of = 360 + minutes;
    return `10/${9 + Math.floor(of / 1440)}/2026,${two(Math.floor(of / 60) % 24)}:${two(of % 60)},${value}`;
  });
  return `Date,Time,${heading}\n${rows.join('\n')}\n`;
}

export const CASING = { name: 'Fibrous', diameterMm: 63, filledMm: 430, holdsTyped: '' };

/** A load with one stuffed batch in a casing. */
export async function loadOf(shop: FreshDesk) {
  const made = await stuffed(shop, { casing: CASING });
  const load = await shop.call('loads.open', { oven: 'Big one', madeIds: [made.id] });
  return { loadId: load.id, madeId: made.id, batchId: made.batchId, recipeId: made.recipeId };
}

export async function importLog(shop: FreshDesk, id: number, content: string, probe = 'P1') {
  const upload = await uploadFile(shop, content, 'cook.csv');
  return shop.call('loads.importLog', { id, upload, probe, phase: 'both' });
}
