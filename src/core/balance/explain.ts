/**
 * Bayesian comparison of explanations for an inconsistent set of weights: every single slip of every weight, and
 * "nothing is wrong, the animal is unusual".
 */
import type { MistypeKind, Typed } from '../values/mistype-digits.ts';
import { slipsByKind } from '../values/mistype.ts';
import { readingGrams } from '../values/reading.ts';
import { logSumExp } from '../stats/log-sum-exp.ts';

/** One weight of the set. */
export interface WeightEntered {
  readonly id: string;
  /** As typed, container included. */
  readonly reading: Typed;
  /** Weight of the container that was subtracted; 0 for none. */
  readonly tareGrams: number;
  /** An earlier weight of the same part has the same reading and the same container. */
  readonly hasDuplicate: boolean;
}

/** A hypothetical change of one weight: another weight (net grams), removed, or unknown. */
export type Change =
  | { readonly id: string; readonly as: 'weight'; readonly grams: number }
  | { readonly id: string; readonly as: 'removed' | 'unknown' };

export type SlipKind = MistypeKind | 'weighed-twice' | 'other-animal' | 'unknown';

export interface ExplainedWeight {
  readonly id: string;
  /** Posterior probability that this weight is the wrong one, given that one is. */
  readonly chance: number;
  /** The most likely error, and the share of that among all explanations. */
  readonly kind: SlipKind;
  readonly kindChance: number;
  /**
   * The likeliest slip in its digits, and its share of all slips in its digits; absent where no such slip is
   * possible.
   */
  readonly meant?: { readonly reading: Typed; readonly kind: SlipKind; readonly chance: number };
}

export interface Explained {
  /** Odds that some weight is wrong against that all are right. */
  readonly odds: number;
  /** The most suspect first. */
  readonly weights: readonly ExplainedWeight[];
}

/** Prior probability that an entered weight is wrong: a judgement, no source. */
const SLIP_RATE = 1 / 150;
/**
 * Prior weights of the kinds of slip, divided evenly among the candidates of a kind. A judgement, no source.
 * `weighed-twice` applies only where there is a duplicate, and the duplicate is itself evidence: 0.06 of the slips, over the
 * chance of 0.012 that a right tote repeats the figure and the container of an earlier one of its part (shops of
 * `npm run slips`, which read half pounds and own two containers).
 */
const SLIP_WEIGHTS: Readonly<Record<SlipKind, number>> = {
  'digits-swapped': 0.2,
  'decimal-slipped': 0.15,
  'wrong-unit': 0.15,
  'digit-wrong': 0.12,
  'digit-missing': 0.06,
  'digit-doubled': 0.06,
  'tare-left-in': 0.15,
  'weighed-twice': 5,
  'other-animal': 0.05,
  unknown: 0.01,
};

/**
 * @param fit the logarithm of the likelihood of the whole set, as entered or with one weight changed
 * @param containers weights of the shop's containers in grams, fetched on demand
 * @param minOdds odds below which no question is shown: the search is skipped where no explanation could reach them
 */
export function explain(
  weights: readonly WeightEntered[],
  fit: (change?: Change) => number,
  containers: () => readonly number[],
  minOdds = 0,
): Explained {
  const asEntered = fit();
  const duplicates = weights.filter(({ hasDuplicate: hasDuplicate }) => hasDuplicate).length;
  const reachable =
    SLIP_RATE * (weights.length * REACHABLE_SHARE + duplicates * SLIP_WEIGHTS['weighed-twice']);
  // No explanation fits much better than 0.
  if (Math.exp(-asEntered) * reachable < minOdds) return { odds: 0, weights: [] };
  const known = containers();
  const tried = weights.flatMap((weight) =>
    slipsOf(weight, known).map((slip) => ({ ...slip, log: slip.log + fit(slip.change) })),
  );
  const all = logSumExp(tried.map(({ log }) => log));
  const chanceOf = (some: readonly { log: number }[]): number =>
    Math.exp(logSumExp(some.map(({ log }) => log)) - all);
  const found = weights.map(({ id }): ExplainedWeight => {
    const own = tried.filter(({ change }) => change.id === id);
    const best = likeliest(own);
    const inFigures = own.filter(({ meant }) => meant);
    const slip = likeliest(inFigures);
    return {
      id,
      chance: chanceOf(own),
      kind: best?.kind ?? 'unknown',
      kindChance: best ? chanceOf([best]) : 0,
      ...(slip?.meant && {
        meant: { reading: slip.meant, kind: slip.kind, chance: chanceOf([slip]) / chanceOf(inFigures) },
      }),
    };
  });
  return { odds: Math.exp(all - asEntered), weights: found.sort((a, b) => b.chance - a.chance) };
}

/** Empirical bound from `npm run slips` on the share of a weight's slips, duplicates apart, that lead to one that fits. */
const REACHABLE_SHARE = 0.4;

/** Never undefined for one weight's slips: it may always belong to another animal. */
function likeliest(some: readonly Tried[]): Tried | undefined {
  return some.reduce<Tried | undefined>((most, one) => (most && most.log >= one.log ? most : one), undefined);
}

type Tried = Slip & { log: number };

interface Slip {
  kind: SlipKind;
  meant?: Typed;
  change: Change;
  /** Logarithm of its prior rate. */
  log: number;
}

function slipsOf(
  { id, reading, tareGrams, hasDuplicate: hasDuplicate }: WeightEntered,
  containers: readonly number[],
): Slip[] {
  const possibleTares = tareGrams > 0 ? [] : containers;
  const typed = slipsByKind(reading, possibleTares).flatMap(([kind, slips]) =>
    slips.flatMap((meant): Slip[] => {
      const grams = readingGrams(meant) - tareGrams;
      if (!(grams > 0)) return [];
      return [
        {
          kind,
          meant,
          change: { id, as: 'weight', grams },
          log: logRate(kind) + logShare(kind, meant, slips.length),
        },
      ];
    }),
  );
  return [
    ...typed,
    ...(hasDuplicate
      ? [{ kind: 'weighed-twice', change: { id, as: 'removed' }, log: logRate('weighed-twice') } as const]
      : []),
    { kind: 'other-animal', change: { id, as: 'removed' }, log: logRate('other-animal') },
    { kind: 'unknown', change: { id, as: 'unknown' }, log: logRate('unknown') },
  ];
}

/** Candidates of a kind are equally likely, but pounds and kilograms are mixed up far more often than ounces and grams. */
function logShare(kind: SlipKind, { unit }: Typed, candidates: number): number {
  if (kind !== 'wrong-unit') return -Math.log(candidates);
  return Math.log(unit === 'lb' || unit === 'kg' ? 1 - SMALL_UNIT_SHARE : SMALL_UNIT_SHARE);
}
const SMALL_UNIT_SHARE = 0.15;

function logRate(kind: SlipKind): number {
  return Math.log(SLIP_RATE * SLIP_WEIGHTS[kind]);
}
