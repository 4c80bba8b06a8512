/** The short form of `npm run floor`. */
import { expect, it } from 'vitest';
import { floorDay } from './floor-day.ts';

it('loses, doubles and mixes up nothing on a day over a bad line, with the desk killed meanwhile', async () => {
  const day = await floorDay({ animals: 12, minuteMs: 8, seed: 3 });
  expect(day.served).toHaveLength(12);
  expect(day).toMatchObject({ lost: 0, doubled: 0, outOfOrder: 0, ownCheckIns: 4 });
  expect(day.photos).toBeGreaterThan(12);
  expect(day.entries).toBeGreaterThan(100);
  // Without a broken line this would prove nothing.
  expect(day.unanswered).toBeGreaterThan(0);
}, 120_000);
