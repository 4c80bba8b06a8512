/** The short form of `npm run torture -- --ledger`. */
import { expect, it } from 'vitest';
import { failed, tableOf } from '../tally.ts';
import { ledgerRounds } from './ledger-rounds.ts';

it('keeps a ledger equal to its book, whatever is killed, cut or set back', async () => {
  const all = await ledgerRounds(7, 11);
  expect(failed(all), tableOf(all)).toBe(false);
  expect(all.every(({ rounds }) => rounds === 1)).toBe(true);
}, 240_000);
