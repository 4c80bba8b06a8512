import type {
  CheckReport,
  CostingView,
  FatReport,
  FlowReport,
  LossView,
  PoundsReport,
  SpeciesYield,
  YieldsReport,
} from '../../bridge/contract.ts';
import { predictionStory } from '../charts/yields/prediction.ts';
import { coverageStory } from '../charts/yields/coverage.ts';
import { fatStory } from '../charts/fat/fat-by-batch.ts';
import { controlStory } from '../charts/fat/fat-control.ts';
import { fatMoneyStory } from '../charts/money/fat-money-story.ts';
import { ownFatStory } from '../charts/fat/fat-own.ts';
import { fatSourcesStory } from '../charts/fat/fat-sources.ts';
import { fatSpeciesStory } from '../charts/fat/fat-species.ts';
import { grindFeeStory } from '../charts/money/grind-fee-story.ts';
import { hangingStory } from '../charts/flow/hanging-story.ts';
import { intakeStory } from '../charts/flow/intake-story.ts';
import { lossStory } from '../charts/smokehouse/loss-story.ts';
import { lossesStory } from '../charts/pounds/losses-story.ts';
import { madeStory } from '../charts/pounds/made-story.ts';
import { poundsStory } from '../charts/pounds/pounds-story.ts';
import { speciesMoneyStory } from '../charts/money/species-money-story.ts';
import { speciesBarsStory } from '../charts/yields/species-bars-story.ts';
import { groupsOfSpecies, type SplitGroup } from '../charts/yields/split-rows.ts';
import { NARROW } from '../charts/yields/splits-drawing.ts';
import { splitFinding, splitsStory } from '../charts/yields/splits-story.ts';
import type { ChartStory } from '../charts/story.ts';
import { trendStory } from '../charts/yields/trend-story.ts';
import { waitSpeciesStory } from '../charts/flow/wait-species-story.ts';
import { waitsStory } from '../charts/flow/waits-story.ts';
import { workMoneyStory } from '../charts/money/work-money-story.ts';
import { yieldStory } from '../charts/yields/yield-by-species.ts';
import { text } from '../../words/compiled/window/season/report.ts';
import type { Format } from '../texts/format.ts';

/** No links on paper. */
const nowhere = (): string => '';

/** Take-home of all animals together. */
export function yieldsStories(view: YieldsReport, format: Format): ChartStory[] {
  return [yieldStory(view, format, nowhere), trendStory(view, format, nowhere)];
}

/** Where their weight went. */
export function poundsStories(view: PoundsReport, format: Format): ChartStory[] {
  const flow = poundsStory(view, format, nowhere);
  if (view.n === 0) return [flow];
  const made = madeStory(view, format);
  return [
    flow,
    lossesStory(view, format, nowhere),
    ...(made ? [made] : []),
    speciesBarsStory(view, format, nowhere),
  ];
}

/** Intake, hanging and waiting times. */
export function flowStories(view: FlowReport, narrowed: boolean, format: Format): ChartStory[] {
  if (view.days.length === 0) return [];
  return [
    hangingStory(view, narrowed, format),
    intakeStory(view, format, nowhere),
    waitsStory(view, format, nowhere),
    waitSpeciesStory(view, format, nowhere),
  ];
}

/** Income and cost; empty before the first bill. */
export function moneyStories(view: CostingView, format: Format): ChartStory[] {
  if (view.billed === 0) return [];
  return [
    workMoneyStory(view, format, nowhere()),
    speciesMoneyStory(view, format, nowhere),
    grindFeeStory(view, format, nowhere()),
    fatMoneyStory(view, format, nowhere()),
  ].filter((story) => story !== null);
}

/** Fat through the grinder; empty before the first batch. */
export function fatStories(view: FatReport, format: Format): ChartStory[] {
  if (view.counts.batches === 0) return [];
  return [
    fatStory(view, format),
    controlStory(view, format),
    fatSpeciesStory(view, format, nowhere),
    fatSourcesStory(view, format),
    ownFatStory(view, format, nowhere()),
  ];
}

/** Losses in the smokehouse, a chart for each recipe that was made in the season. */
export function smokehouseStories({ recipes }: LossView, season: number, format: Format): ChartStory[] {
  return recipes
    .map((one) => ({ ...one, batches: one.batches.filter(({ season: of }) => of === season) }))
    .filter(({ batches }) => batches.length > 0)
    .map((one) => lossStory(one, format, nowhere));
}

/**
 * Predictions compared with observed values; empty before the first quoted animal is finished. The list of quotes
 * is longer than a sheet, and stays on the screen.
 */
export function checkStories(view: CheckReport, format: Format): ChartStory[] {
  if (view.all.n === 0) return [];
  return [coverageStory(view, format, nowhere), predictionStory(view, format)];
}

interface SpeciesStories {
  yield: ChartStory;
  trend: ChartStory;
  /** Null without an animal that has every part weighed. */
  bars: ChartStory | null;
  partedFinding: string;
  /** In two halves side by side, so that a species fits on one page. */
  parted: ChartStory[];
}

/** The charts of one species. */
export function speciesStories(species: SpeciesYield, pounds: PoundsReport, format: Format): SpeciesStories {
  const view: YieldsReport = {
    season: pounds.season,
    animals: 0,
    takeHomeGrams: 0,
    withoutShare: 0,
    species: [species],
  };
  const own = pounds.species.filter(({ code }) => code === species.code);
  const groups = groupsOfSpecies(species);
  const texts = {
    title: text.parted,
    n: text.speciesN({ n: species.spread?.n ?? 0 }),
    fileName: species.code,
  };
  return {
    yield: { ...yieldStory(view, format, nowhere), title: text.each },
    trend: trendStory(view, format, nowhere),
    bars: own[0]
      ? {
          ...speciesBarsStory({ ...pounds, species: own, n: own[0].n, others: 0 }, format, nowhere),
          title: text.went,
        }
      : null,
    partedFinding: splitFinding(groups, format),
    parted: halves(groups).map((half, i) =>
      splitsStory(half, format, nowhere, { ...texts, title: `${texts.title} ${i + 1}` }, NARROW),
    ),
  };
}

/** Groups in two halves with about the same number of rows. */
export function halves(groups: readonly SplitGroup[]): SplitGroup[][] {
  const tall = ({ rows }: SplitGroup): number => rows.length + 1;
  const all = groups.reduce((total, group) => total + tall(group), 0);
  let before = 0;
  const first = groups.filter((group) => {
    const fits = before + tall(group) / 2 <= all / 2;
    before += tall(group);
    return fits;
  });
  return [first, groups.slice(first.length)].filter((half) => half.length > 0);
}
