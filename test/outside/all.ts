/** Every independent published result that ours is held against, by what it is about. */
import type { CopiedFigure, PublishedResult } from './result.ts';
import { balances } from './results/balance.ts';
import { blends } from './results/blend.ts';
import { compositions } from './results/compositions.ts';
import { cures } from './results/cures.ts';
import { copied } from './results/copied.ts';
import { distributions } from './results/distributions.ts';
import { heats } from './results/heat.ts';
import { hook } from './results/hook.ts';
import { means } from './results/means.ts';
import { shares } from './results/apportion.ts';
import { units } from './results/units.ts';
import { yields } from './results/yield.ts';

export const RESULTS: Readonly<Record<string, readonly PublishedResult[]>> = {
  'Units of mass': units,
  'Yields before a shop weighed its own': yields,
  'Blends of lean and fat': blends,
  'The balance of weights': balances,
  'Loss on the hook': hook,
  'Shares of a pooled batch': shares,
  'Cures on the green weight': cures,
  'Composition of made products': compositions,
  'Heat and cooling': heats,
  'Means and control charts': means,
  Distributions: distributions,
};

/** First guesses against the source that each was taken from. */
export const COPIED: readonly CopiedFigure[] = copied;

export const countOfResults = Object.values(RESULTS).flat().length;
