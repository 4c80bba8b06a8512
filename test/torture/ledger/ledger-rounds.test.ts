/** The short form of `npm run torture -- --ledger`: its first two kinds of round. */
import { expect, it } from 'vitest';
import { failed, tableOf } from '../tally.ts';
import { ledgerRounds } from './ledger-rounds.ts';

it('keeps a ledger equal to its book, whether the desk or the feeder is killed', async () => {
  const all = await ledgerRounds(2, 11);
  expect(failed(all), tableOf(all)).toBe(false);
  expect(all.filter(({ rounds }) => rounds === 1).map(({ name }) => name)).toEqual([
    'desk killed while fed',
    'feeder killed',
  ]);
}, 240_000);
