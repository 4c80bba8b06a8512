/** The slips of hand and eye that are tried, each made on one tote. */
import type { RandomGenerator } from '../../src/core/stats/random.ts';
import { STEP, type Tote } from './world.ts';

export const SLIPS = [
  'digits swapped',
  'decimal moved',
  'kg typed as lb',
  'lb typed as kg',
  'entered twice',
  'container left in',
  'wrong animal',
] as const;
export type SlipName = (typeof SLIPS)[number];

/** What is typed for a tote. */
export interface TypedTote {
  readonly part: Tote['part'];
  readonly typed: string;
  readonly tareTyped: string;
}

/** A tote as it should be typed: gross, with the container's weight beside it. */
export function typedRight({ part, lb, container }: Tote): TypedTote {
  return { part, typed: inPounds(lb + container), tareTyped: container > 0 ? inPounds(container) : '' };
}

export const inPounds = (lb: number): string => lb.toFixed(1);
const POUNDS_PER_KG = 2.2046226;

/**
 * What is typed when this slip is made on this tote, and the net pounds that were meant; null where it cannot be made.
 * `stranger` is a tote of another animal of the kind.
 */
export function slipped(
  slip: SlipName,
  tote: Tote,
  stranger: Tote,
  chance: RandomGenerator,
): TypedTote | null {
  const right = typedRight(tote);
  switch (slip) {
    case 'digits swapped': {
      const typed = swapped(right.typed, chance);
      return typed === null ? null : { ...right, typed };
    }
    case 'decimal moved': {
      const digits = right.typed.replace('.', '');
      return {
        ...right,
        typed: chance.uniform() < 0.5 ? digits : `${digits.slice(0, -2)}.${digits.slice(-2)}`,
      };
    }
    case 'kg typed as lb':
      return { ...right, typed: ((tote.lb + tote.container) / POUNDS_PER_KG).toFixed(1) };
    case 'lb typed as kg':
      return { ...right, typed: `${right.typed} kg` };
    case 'entered twice':
      return right;
    case 'container left in':
      return tote.container > 0 ? { ...right, tareTyped: '' } : null;
    case 'wrong animal':
      return typedRight(stranger);
  }
}

/** Two neighbouring figures the other way round; null where that changes less than a step or makes nothing. */
function swapped(typed: string, chance: RandomGenerator): string | null {
  const digits = typed.replace('.', '');
  const places = [...digits].slice(1).flatMap((figure, i) => (figure === digits[i] ? [] : [i]));
  const at = places[Math.floor(chance.uniform() * places.length)];
  if (at === undefined) return null;
  const other = `${digits.slice(0, at)}${digits[at + 1]}${digits[at]}${digits.slice(at + 2)}`;
  const text = `${other.slice(0, -1)}.${other.slice(-1)}`;
  return Number(text) > 0 && Math.abs(Number(text) - Number(typed)) >= STEP
    ? text.replace(/^0+(?=\d)/, '')
    : null;
}
