import type { CallInput, CallName, CallOutput } from '../../src/bridge/contract.ts';
import type { Dice } from './dice.ts';
import type { Driver, Window } from './driver.ts';
import type { Shop } from './shop.ts';

/** One call as the model wants it done, and what it says of the answer. */
export interface Act {
  call: CallName;
  input: object;
  /** Reasons for which a shop does not do this, as codes; with any of them it must be refused for one of them. */
  refuse: readonly string[];
  /** Questions that the desk may ask instead, or refusals that a hair decides. */
  may: readonly string[];
  /** Writes into the model what was done. */
  done: (value: unknown) => void;
  /** What is looked at once it is done. */
  then?: ((driver: Driver, window: Window) => Promise<void>) | undefined;
}

/** Something that happens around the desk and is no call: the clock, a restart. */
export interface Deed {
  deed: string;
  run: (driver: Driver, window?: Window) => Promise<void>;
}

export interface Step {
  /** How often it is drawn, beside the others. */
  weight: number;
  /** The procedures that it calls. */
  calls: readonly CallName[];
  /** What is done now; null where there is nothing to do it to. */
  draw: (shop: Shop, dice: Dice) => Act | Deed | null;
}

export function act<N extends CallName>(
  call: N,
  input: CallInput<N>,
  rules: {
    refuse?: readonly string[];
    may?: readonly string[];
    done?: (value: CallOutput<N>) => void;
    then?: Act['then'];
  } = {},
): Act {
  const { refuse = [], may = [], done = () => undefined, then } = rules;
  return { call, input, refuse, may, done: done as Act['done'], then };
}

/** Collects the reasons that hold. */
export function because(...reasons: readonly (readonly [boolean, string])[]): string[] {
  return reasons.filter(([holds]) => holds).map(([, code]) => code);
}

/** A reason that a hair of grams decides is a reason, none, or either. */
export function byWeight(grams: number, most: number, code: string): { refuse: string[]; may: string[] } {
  if (Math.abs(grams - most) < HAIR) return { refuse: [], may: [code] };
  return { refuse: grams > most ? [code] : [], may: [] };
}

/** Sums of grams differ by rounding of binary fractions. */
const HAIR = 0.01;
