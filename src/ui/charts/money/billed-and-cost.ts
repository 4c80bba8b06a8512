/** What the charts of money share. */
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import type { Paint } from '../engine/paint.ts';
import type { Axis } from '../plot.ts';

/** The cost has a pattern, so that it is distinguishable from the billed amount without color. */
export const costBar = (amount: number): { amount: number; paint: Paint } => ({
  amount,
  paint: { pattern: 'hatch', ink: 'steel', on: 'card' },
});

/** What is left of an amount in minor units, or the loss. */
export function outcomeOf(left: number, format: Format): { words: string; short: boolean } {
  const short = left < 0;
  const amount = format.money(Math.abs(left));
  return { short, words: short ? text.lost({ amount }) : text.kept({ amount }) };
}

/** The most minor units of a whole one, in any currency of a shop. */
const WHOLE = 100;

/** Minor units; round amounts are labeled without them. */
export const moneyAxis = (format: Format): Axis => ({
  written: (minor) => (minor % WHOLE === 0 ? format.aboutMoney(minor) : format.money(minor)),
});
