/** The short form of `node test/torture/line/run.ts`. */
import { expect, it } from 'vitest';
import { failed, tableOf } from '../tally.ts';
import { lineRounds } from './line-rounds.ts';

it('takes each entry once and in order, over a line that breaks and with a desk that is killed', async () => {
  const counted = await lineRounds({ stations: 4, each: 40, kills: 1, seed: 11 });
  expect(failed([counted]), tableOf([counted])).toBe(false);
  expect(counted.entries).toBe(160);
  // Each fault came, or this would prove nothing of it.
  expect(counted.notes.join()).toMatch(
    /[1-9]\d* unanswered, [1-9]\d* repeated, [1-9]\d* ahead.*[1-9]\d* cut.*1 desks killed/,
  );
}, 120_000);
