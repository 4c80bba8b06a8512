/** Runs the made-up shops through a desk and counts what became of their slips. */
import { bestOdds } from './best-test.ts';
import { SLIPS, type SlipName } from './making-slips.ts';
import { openFloor, teach, weighIn, withSlip, type Outcome } from './shop-floor.ts';
import { openShop, publishedFigures, trueFigures, type Figures, type Shop } from './world.ts';

/** Shares of animals of which some tote is never weighed. */
export const MISSING = [0, 0.2, 0.6] as const;
/** Animals that the desk has learned from. */
export const TAUGHT = [0, 150] as const;

export interface Run {
  /** Of each kind: shops that have learned, and shops that are new, which differ more in what is known of them. */
  readonly shops: { readonly learned: number; readonly fresh: number };
  /** Animals with each slip in all of a kind's shops together; right ones are this many times as many. */
  readonly animals: number;
  readonly rightTimes: number;
  readonly seed: number;
  readonly missing?: readonly number[];
  readonly taught?: readonly number[];
  /** The slips to try, null for none; the animals are the same whichever these are. Default: all. */
  readonly slips?: readonly (SlipName | null)[];
  /** Whether the best possible tests look at each animal too, which takes longer than the desk. Default: yes. */
  readonly best?: boolean;
}

/** All animals of one kind of shop that met the same slip; null: none was made. */
export interface Cell {
  readonly missing: number;
  readonly taught: number;
  readonly slip: SlipName | null;
  readonly outcomes: readonly Outcome[];
  /** What the best possible test says of each, knowing the shop's true figures. */
  readonly best: readonly number[];
  /** The same of one that knows only what is published. */
  readonly bestFresh: readonly number[];
}

export async function simulate(run: Run): Promise<Cell[]> {
  const cells: Cell[] = [];
  const oddsOf = (all: readonly { shop: Shop; outcome: Outcome }[], figures: (shop: Shop) => Figures) =>
    run.best === false ? [] : all.map(({ shop, outcome }) => bestOdds(figures(shop), outcome.seen));
  for (const missing of run.missing ?? MISSING)
    for (const taught of run.taught ?? TAUGHT) {
      const shops: Map<SlipName | null, { shop: Shop; outcome: Outcome }[]> = new Map();
      const count = taught > 0 ? run.shops.learned : run.shops.fresh;
      for (let number = 0; number < count; number++) {
        const { shop, chance } = openShop(
          missing,
          run.seed + 1000 * number + Math.round(100 * missing) + taught,
        );
        const floor = await openFloor();
        await teach(floor, shop, chance, taught);
        for (const slip of [null, ...SLIPS])
          for (let i = 0; i < (run.animals / count) * (slip ? 1 : run.rightTimes); i++) {
            if (run.slips && !run.slips.includes(slip)) {
              withSlip(shop, chance, slip);
              continue;
            }
            const outcome = await weighIn(floor, shop, chance, slip);
            shops.set(slip, [...(shops.get(slip) ?? []), { shop, outcome }]);
          }
        floor.close();
      }
      for (const [slip, all] of shops)
        cells.push({
          missing,
          taught,
          slip,
          outcomes: all.map(({ outcome }) => outcome),
          best: oddsOf(all, trueFigures),
          bestFresh: oddsOf(all, publishedFigures),
        });
    }
  return cells;
}

/** How often each thing came of a cell's animals, as shares. */
export interface Tally {
  readonly animals: number;
  readonly asked: number;
  readonly named: number;
  readonly unclear: number;
  readonly wrongNamed: number;
  readonly silent: number;
  /** Asked, named or told that the weights do not fit. */
  readonly found: number;
  /** The same of the best possible tests, at as many false alarms as `LEVEL` allows; null where they did not look. */
  readonly best: number | null;
  readonly bestFresh: number | null;
  /** Of what was asked about or named: how often something was offered, and how often that was right; null for none. */
  readonly offered: number | null;
  readonly offeredRight: number | null;
  /** Questions about right weights for 100 animals. */
  readonly questioned: number;
}

/** False alarms that both tests are allowed. */
export const LEVEL = 0.015;

/** The odds above which each of the best tests calls out, from the right animals of the same kind of shop. */
export interface Thresholds {
  readonly best: number;
  readonly bestFresh: number;
}

export function bestThresholds(cells: readonly Cell[], missing: number): Thresholds {
  const right = cells.filter((cell) => cell.missing === missing && cell.slip === null);
  const threshold = (of: 'best' | 'bestFresh'): number => {
    const odds = right.flatMap((cell) => cell[of]).sort((a, b) => b - a);
    return odds[Math.floor(LEVEL * odds.length)] ?? 0;
  };
  return { best: threshold('best'), bestFresh: threshold('bestFresh') };
}

function shareAbove(odds: readonly number[], threshold: number): number | null {
  return odds.length > 0 ? odds.filter((one) => one > threshold).length / odds.length : null;
}

export function tally({ outcomes, best, bestFresh }: Cell, threshold: Thresholds): Tally {
  const share = (is: (one: Outcome) => boolean, of = outcomes): number => of.filter(is).length / of.length;
  const reached = outcomes.filter(({ asked, named }) => asked || named);
  const offered = reached.filter(({ offeredRight }) => offeredRight !== null);
  const missed = ({ asked, named }: Outcome): boolean => !asked && !named;
  return {
    animals: outcomes.length,
    asked: share(({ asked }) => asked),
    named: share(({ named }) => named),
    unclear: share((one) => missed(one) && one.unclear),
    wrongNamed: share((one) => missed(one) && !one.unclear && one.rightQuestioned > 0),
    silent: share((one) => missed(one) && !one.unclear && one.rightQuestioned === 0),
    found: share(({ asked, named, unclear }) => asked || named || unclear),
    best: shareAbove(best, threshold.best),
    bestFresh: shareAbove(bestFresh, threshold.bestFresh),
    offered: reached.length > 0 ? offered.length / reached.length : null,
    offeredRight: offered.length > 0 ? share((one) => one.offeredRight === true, offered) : null,
    questioned:
      (100 * outcomes.reduce((sum, { rightQuestioned }) => sum + rightQuestioned, 0)) / outcomes.length,
  };
}
