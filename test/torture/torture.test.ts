/** The short form of `npm run torture`. */
import { expect, it } from 'vitest';
import { damageRounds } from './damage.ts';
import { fullDiskRounds } from './full-disk.ts';
import { interruptedRounds } from './interrupted.ts';
import { killRounds } from './kills.ts';
import { sharedPlaceRounds } from './shared-place.ts';
import { photoRounds } from './photos/photo-rounds.ts';
import { failed, tableOf, tally } from './tally.ts';
import { temporaryDiskRounds } from './temporary-disk.ts';

it('loses nothing that was acknowledged when it is killed or the power is cut', async () => {
  const all = await killRounds(3, 11);
  expect(failed(all), tableOf(all)).toBe(false);
  expect(all.reduce((sum, { entries }) => sum + entries, 0)).toBeGreaterThan(7);
}, 60_000);

it('loses nothing on a disk that fills up', async () => {
  const counted = await fullDiskRounds(1, 11);
  expect(failed([counted]), tableOf([counted])).toBe(false);
  expect(counted.entries).toBeGreaterThan(5);
}, 60_000);

it('opens a spoilt book whole or goes back to a backup', async () => {
  const all = await damageRounds(8, 11);
  expect(failed(all), tableOf(all)).toBe(false);
  expect(all.reduce((sum, { restored }) => sum + restored, 0)).toBeGreaterThan(5);
}, 60_000);

it('works on while the temporary disk is full', async () => {
  const counted = await temporaryDiskRounds(1, 11);
  expect(failed([counted]), tableOf([counted])).toBe(false);
  expect(counted.rounds > 0 || process.getuid?.() !== 0).toBe(true);
}, 60_000);

it('has no photograph without its file, and no file without its photograph', async () => {
  const counted = await photoRounds(2, 11);
  expect(failed([counted]), tableOf([counted])).toBe(false);
  expect(counted.entries).toBeGreaterThan(3);
}, 60_000);

it('takes a table in whole or not at all, and leaves nothing of an export that was cut short', async () => {
  const counted = await interruptedRounds(2, 11);
  expect(failed([counted]), tableOf([counted])).toBe(false);
  expect(counted.entries).toBeGreaterThan(3);
}, 60_000);

it('loses no copy of one book in a second place shared by three', () => {
  const counted = sharedPlaceRounds(60, 11);
  expect(failed([counted]), tableOf([counted])).toBe(false);
}, 60_000);

it.each(['lost', 'stuck', 'wrong'] as const)('fails on one round with something %s', (what) => {
  expect(failed([tally('a'), { ...tally('b'), [what]: 1 }])).toBe(true);
  expect(failed([tally('a')])).toBe(false);
});
