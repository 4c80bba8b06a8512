/** Two groups of animals side by side. */
import * as v from 'valibot';
import type { GroupMoments } from '../../book/sums/season-compare.ts';
import { compareMeans } from '../../core/stats/welch.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { seasonFilter, sumsOf } from '../session/season-filter.ts';
import type { ComparedGroup, CompareBy, ComparisonReport, SeasonFilter } from '../contract/contract.ts';

/** 9 in 10, like all ranges beside a difference. */
const LEVEL = 0.9;
/** Below this number per group the mean is unreliable. Common practice, no source. */
const MIN_ANIMALS = 5;

const compareBy = v.picklist(
  ['takeHome', 'bone', 'damage', 'hanging', 'days', 'income'] satisfies CompareBy[],
  'choice.measure',
);

/** Group `a` minus group `b`. The groups may be of different seasons. */
export const compare = read(
  v.object({ by: v.optional(compareBy, 'takeHome'), a: seasonFilter, b: seasonFilter }),
  (session, { by, a, b }): ComparisonReport => {
    const groups = { a: groupOf(session, by, a), b: groupOf(session, by, b) };
    const [one, two] = [measured(groups.a), measured(groups.b)];
    return {
      by,
      ...groups,
      difference: one && two ? differenceOf(one, two) : null,
      inBoth: inBoth(session, by, a, b),
      fewest: MIN_ANIMALS,
    };
  },
);

function groupOf(session: Session, by: CompareBy, filter: SeasonFilter): ComparedGroup {
  const { n, mean, squares } = momentsOf(session, by, filter);
  return { n, mean, sd: n > 1 ? Math.sqrt(squares / (n - 1)) : null };
}

function momentsOf(session: Session, by: CompareBy, filter: SeasonFilter): GroupMoments {
  return session.book.seasonCompare.moments(by, sumsOf(session, filter), session.settings.currency);
}

function measured({ n, mean, sd }: ComparedGroup): { n: number; mean: number; sd: number } | null {
  return mean === null || sd === null ? null : { n, mean, sd };
}

function differenceOf(
  a: { n: number; mean: number; sd: number },
  b: { n: number; mean: number; sd: number },
): ComparisonReport['difference'] {
  const { difference, low, high } = compareMeans(a, b, LEVEL);
  return { low, mean: difference, high, level: LEVEL };
}

/** Animals in both groups: the range assumes disjoint groups. */
function inBoth(session: Session, by: CompareBy, a: SeasonFilter, b: SeasonFilter): number {
  const both = { ...sumsOf(session, a) } as Record<string, string | number | undefined>;
  for (const [key, value] of Object.entries(sumsOf(session, b))) {
    if (value === undefined) continue;
    const other = both[key];
    if (other === undefined) both[key] = value;
    else if (key === 'from') both[key] = value > other ? value : other;
    else if (key === 'to') both[key] = value < other ? value : other;
    else if (other !== value) return 0;
  }
  return session.book.seasonCompare.moments(by, both, session.settings.currency).n;
}
