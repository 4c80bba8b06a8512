/**
 * What most likely went wrong with a set of weights that do not fit together. Every single slip of every weight is tried
 * on the whole set; the explanations compete with each other and with "nothing went wrong, the animal is like that".
 */
import type { MistypeKind, Typed } from '../values/mistype-digits.ts';
import { slipsByKind } from '../values/mistype.ts';
import { readingGrams } from '../values/reading.ts';
import { logSumExp } from '../stats/log-sum-exp.ts';

/** One weight of the set. */
export interface WeightEntered {
  readonly id: string;
  /** As typed, container and all. */
  readonly reading: Typed;
  /** The container that was taken off; 0 for none. */
  readonly tareGrams: number;
  /** An earlier weight of the same part shows the very same figure. */
  readonly hasDuplicate: boolean;
}

/** What a weight is taken for while an explanation is tried: another weight (net grams), not there, or not known. */
export type Change =
  | { readonly id: string; readonly as: 'weight'; readonly grams: number }
  | { readonly id: string; readonly as: 'removed' | 'unknown' };

export type SlipKind = MistypeKind | 'weighed-twice' | 'other-animal' | 'unknown';

export interface ExplainedWeight {
  readonly id: string;
  /** Its share of all explanations together. */
  readonly chance: number;
  /** What most likely happened to it, and the share of that among all explanations. */
  readonly kind: SlipKind;
  readonly kindChance: number;
  /** The likeliest slip in its figures, and its share of all slips in its figures; none where no slip of that kind is possible. */
  readonly meant?: { readonly reading: Typed; readonly kind: SlipKind; readonly chance: number };
}

export interface Explained {
  /** Odds that some weight is wrong against that all are right. */
  readonly odds: number;
  /** The most suspect first. */
  readonly weights: readonly ExplainedWeight[];
}

/** One weight in so many is wrong when it is entered, a judgement: no source gives one. */
const SLIP_RATE = 1 / 150;
/**
 * How the slips divide among kinds, shared evenly by all candidates of a kind: a kind that can reach many weights proves
 * little when it reaches the right one. A judgement, no source; `weighed-twice` counts only where a twin stands, and two
 * honest totes rarely show the same figure, so that a twin is itself some evidence.
 */
const SLIP_WEIGHTS: Readonly<Record<SlipKind, number>> = {
  'digits-swapped': 0.2,
  'decimal-slipped': 0.15,
  'wrong-unit': 0.15,
  'digit-wrong': 0.12,
  'digit-missing': 0.06,
  'digit-doubled': 0.06,
  'tare-left-in': 0.15,
  'weighed-twice': 2,
  'other-animal': 0.05,
  unknown: 0.01,
};

/**
 * @param fit the logarithm of the likelihood of the whole set, as entered or with one weight changed
 * @param containers weights of the shop's containers in grams, asked for only when they are needed
 * @param minOdds odds below which nobody asks: then no explanation is looked for where none could reach them
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
  // No explanation fits better than perfectly (0).
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

/** A bound seen in `npm run slips`: of the slips that a weight may have had, double entries apart, fewer lead to one that fits. */
const REACHABLE_SHARE = 0.4;

/** Of one weight's slips there is always one: it may be of another animal. */
function likeliest(some: readonly Tried[]): Tried | undefined {
  return some.reduce<Tried | undefined>((most, one) => (most && most.log >= one.log ? most : one), undefined);
}

type Tried = Slip & { log: number };

interface Slip {
  kind: SlipKind;
  meant?: Typed;
  change: Change;
  /** Logarithm of how common it is. */
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
