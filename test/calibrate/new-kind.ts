/**
 * A busy shop gets its first animals of a kind, and the profile is wrong about them. How often do the ranges hold the
 * next one, and how wide are they, beside the t-interval of a running mean that knows no profile?
 */
import { tQuantile } from '../../src/core/stats/distributions.ts';
import type { StudentT } from '../../src/core/stats/student-t.ts';
import { predictSplits } from '../../src/core/yield/predict.ts';
import { forEachShare } from '../../src/core/yield/observation.ts';
import { modelFrom, takeHomeRange } from '../../src/core/yield/yield.ts';
import { accumulate, summarise, type Cell } from '../../src/core/yield/sums.ts';
import { logit, inverseLogit } from '../../src/core/yield/tree.ts';
import { LEVELS } from './coverage.ts';
import { normalPriorRange } from './normal-prior.ts';
import { openShop, profiles, weigh, WORLDS, type Animal, type OffPrior, type World } from './world.ts';

/** Animals of other kinds that the shop has weighed. */
export const OTHERS = 240;
const EIGHT_IN_TEN = LEVELS.indexOf(0.8);

export interface NewKind extends Pick<OffPrior, 'by' | 'spread'> {
  /** Standard deviations of the profile that the true mean is off; `null`: drawn as the model believes. */
  readonly sds: number | null;
}

/** Shares of shops whose next animal the take-home ranges held, and the mean width of the ranges, by level. */
export interface Held {
  readonly inside: number[];
  readonly width: number[];
}

export interface NewKindHeld {
  /** Animals of the new kind that were weighed. */
  readonly weighed: number;
  readonly model: Held;
  /** What normal priors would give. */
  readonly normalPrior: Held;
  /** The t-interval of a running mean of the new kind alone. From two animals on. */
  readonly running: Held;
  /** Shares that the 80 % ranges of every split held. */
  readonly allSplits: number;
}

/**
 * Opens `shops` busy shops, has each learn 0, 1, 3 … (`weighed`) animals of the new kind, and predicts one more each
 * time. The new kind is a species (each in turn) or bone-in quarters; field-boned animals are left out of it.
 */
export function newKindHeld(
  { by, sds, spread }: NewKind,
  weighed: readonly number[],
  shops: number,
  seed: number,
): NewKindHeld[] {
  const world = WORLDS[0] as World;
  const held = weighed.map((n) => ({
    weighed: n,
    model: nothing(),
    normalPrior: nothing(),
    running: nothing(),
    allSplits: 0,
  }));
  for (let shop = 0; shop < shops; shop++) {
    const level = by === 'brought' ? 'quarters' : (profiles[shop % profiles.length]?.code ?? '');
    const off = sds === null ? undefined : { by, level, sds, spread };
    const { next, chance } = openShop(world, seed * 1_000_003 + shop, off);
    const isNew = ({ group }: Animal): boolean => group[by] === level;
    const newOne = (): Animal =>
      until(
        () => next({ [by]: level }),
        ({ group }) => group.brought !== 'boned',
      );

    const others = Array.from({ length: OTHERS }, () => until(next, (animal) => !isNew(animal)));
    const sums: Record<string, Cell> = { ...summarise(others.map((animal) => weigh(animal, world, chance))) };
    const seen: number[] = [];
    for (const count of held) {
      for (; seen.length < count.weighed;) {
        const animal = newOne();
        accumulate(sums, weigh(animal, world, chance));
        seen.push(takeHomeShare(animal));
      }
      const animal = newOne();
      const model = modelFrom(profiles, sums);
      const share = takeHomeShare(animal);
      for (const [i, at] of LEVELS.entries()) {
        add(count.model, i, takeHomeRange(model, animal.group, at), share, shops);
        add(count.normalPrior, i, normalPriorRange(profiles, sums, animal.group, at), share, shops);
        if (seen.length > 1) add(count.running, i, runningRange(seen, at), share, shops);
      }
      count.allSplits += splitsHeld(predictSplits(model, animal.group), animal) / shops;
    }
  }
  return held;
}

const KINDS: readonly [string, NewKind][] = [
  ['new species, as believed', { by: 'species', sds: null, spread: 1 }],
  ...[0, 1, 2, 3].map((sds): [string, NewKind] => [
    `new species, ${sds} SD off`,
    { by: 'species', sds, spread: 1 },
  ]),
  ['new species, varies twice as much', { by: 'species', sds: 0, spread: 2 }],
  ['first quarters, as believed', { by: 'brought', sds: null, spread: 1 }],
  ['first quarters, 3 SD off', { by: 'brought', sds: 3, spread: 1 }],
];
const WEIGHED = [0, 1, 3, 5, 10];

/** The table that `npm run calibrate` prints. `mark` puts a sign at shares outside the band of an honest count. */
export function newKindTable(
  shops: number,
  mark: (share: number, level: number) => string,
): { titles: string[]; rows: string[][] } {
  const percent = (share: number): string => (100 * share).toFixed(1);
  const titles = [
    'new kind',
    'weighed of it',
    ...LEVELS.map((level) => `take-home ${percent(level)}`),
    'width of the 80',
    'all splits 80',
    'normal prior 80.0',
    'width of its 80',
    ...LEVELS.map((level) => `running mean ${percent(level)}`),
    'width of its 80',
  ];
  const rows = KINDS.flatMap(([name, kind], i) =>
    newKindHeld(kind, WEIGHED, shops, 101 + i).map(({ weighed, model, normalPrior, running, allSplits }) => [
      name,
      String(weighed),
      ...LEVELS.map((level, at) => mark(model.inside[at] ?? 0, level)),
      percent(model.width[EIGHT_IN_TEN] ?? 0),
      percent(allSplits),
      mark(normalPrior.inside[EIGHT_IN_TEN] ?? 0, 0.8),
      percent(normalPrior.width[EIGHT_IN_TEN] ?? 0),
      ...LEVELS.map((level, at) => (weighed > 1 ? mark(running.inside[at] ?? 0, level) : '')),
      weighed > 1 ? percent(running.width[EIGHT_IN_TEN] ?? 0) : '',
    ]),
  );
  return { titles, rows };
}

const nothing = (): Held => ({ inside: LEVELS.map(() => 0), width: LEVELS.map(() => 0) });

const takeHomeShare = ({ parts, hangingGrams }: Animal): number => parts.takeHome / hangingGrams;

function until(next: () => Animal, wanted: (animal: Animal) => boolean): Animal {
  for (;;) {
    const animal = next();
    if (wanted(animal)) return animal;
  }
}

function add(
  held: Held,
  i: number,
  range: { low: number; high: number },
  share: number,
  shops: number,
): void {
  const { low, high } = range;
  held.inside[i] = (held.inside[i] ?? 0) + (low <= share && share <= high ? 1 / shops : 0);
  held.width[i] = (held.width[i] ?? 0) + (high - low) / shops;
}

/** Mean ± t s sqrt(1 + 1/n) on the logit scale, as every textbook has it. */
function runningRange(shares: readonly number[], level: number): { low: number; high: number } {
  const ys = shares.map(logit);
  const n = ys.length;
  const mean = ys.reduce((total, y) => total + y, 0) / n;
  const sd = Math.sqrt(ys.reduce((total, y) => total + (y - mean) ** 2, 0) / (n - 1));
  const reach = tQuantile((1 + level) / 2, n - 1) * sd * Math.sqrt(1 + 1 / n);
  return { low: inverseLogit(mean - reach), high: inverseLogit(mean + reach) };
}

export function splitsHeld(
  predicted: Readonly<Record<string, StudentT>>,
  { hangingGrams, parts, group }: Animal,
): number {
  let [held, all] = [0, 0];
  forEachShare({ hangingGrams, takeHomeGrams: parts.takeHome, parts, group }, (split, share) => {
    // Whether there is none at all is foretold by a chance, not by this range.
    if (share === 0 && split === 'damage') return;
    const { location, scale, degrees } = predicted[split] as StudentT;
    all += 1;
    if (Math.abs(logit(share) - location) <= scale * tQuantile(0.9, degrees)) held += 1;
  });
  return held / all;
}
