/** Random days of a shop at a real desk, held against a model of what a shop may do. `npm run model` is the long form. */
import { describe, expect, it } from 'vitest';
import { procedures } from '../../src/desk/procedures.ts';
import { BROKEN, findBroken } from './broken.ts';
import { DRIVEN, NOT_DRIVEN } from './driven.ts';
import { historyOf, run } from './history.ts';
import { shorten, told } from './shorten.ts';
import { Tally } from './tally.ts';

const SEED = 20261129;
const STEPS = 1000;
const LENGTH = 250;

it('drives every procedure, or says why not', () => {
  const named = [...DRIVEN, ...Object.keys(NOT_DRIVEN)].sort();
  expect(named).toEqual(Object.keys(procedures).sort());
  for (const [call, reason] of Object.entries(NOT_DRIVEN)) expect(reason, call).not.toBe('');
});

it('finds the desk as the model has it', async () => {
  const tally = new Tally();
  for (let n = 0; tally.steps < STEPS; n++) {
    const history = historyOf(SEED, n, LENGTH);
    const ran = await run(history, { tally });
    if (ran.wrong !== null) expect.fail(told(await shorten(history, ran, {}, 60)));
  }
  // A model that refuses everything, or a shop in which nothing happens, would find nothing either.
  const done = [...tally.calls.values()].reduce((sum, row) => sum + row.done, 0);
  expect(done).toBeGreaterThan(STEPS / 2);
  expect(tally.refusals.size).toBeGreaterThan(30);
}, 240_000);

describe('a rule that is broken on purpose', () => {
  it.each(BROKEN.slice(0, 4))(
    'is found: $what',
    async (rule) => {
      const { wrong, steps } = await findBroken(rule, SEED, LENGTH);
      expect(wrong).not.toBeNull();
      expect(steps).toBeLessThanOrEqual(rule.within + LENGTH);
    },
    120_000,
  );
});
