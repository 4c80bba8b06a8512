import type { CompareBy } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

/** Texts of the comparison of two groups of animals. Amounts are already formatted. */
export const compareText = {
  groups: { a: 'First group', b: 'Second group' },
  empty: 'There is nothing to compare yet.',
  emptyHow:
    'Two groups of finished animals stand side by side here, say whole ones and quarters. Two on each side are enough.',
  measure: 'Compare by',
  measures: {
    takeHome: 'Take-home',
    bone: 'Bone',
    damage: 'Damage',
    hanging: 'Hanging weight',
    days: 'Days in the shop',
    income: 'Bill before tax',
  } satisfies Record<CompareBy, string>,
  axis: {
    takeHome: 'Take-home as a share of hanging weight',
    bone: 'Bone as a share of hanging weight',
    damage: 'Damage as a share of hanging weight',
    hanging: 'Hanging weight',
    days: 'Days from intake to ready',
    income: 'Bill before tax',
  } satisfies Record<CompareBy, string>,
  season: (season: number) => `season ${season}`,
  all: 'all animals',
  title: (a: string, b: string) => `${a} against ${b}`,
  points: (number: string) => `${number} points`,
  days: (days: string) => `${days} days`,

  more: (a: string, b: string, by: CompareBy, amount: string, less: boolean) =>
    ({
      takeHome: `${a} gave ${amount} ${less ? 'less' : 'more'} take-home than ${b}`,
      bone: `${a} had ${amount} ${less ? 'less' : 'more'} bone than ${b}`,
      damage: `${a} lost ${amount} ${less ? 'less' : 'more'} to damage than ${b}`,
      hanging: `${a} hung ${amount} ${less ? 'lighter' : 'heavier'} than ${b}`,
      days: `${a} took ${amount} ${less ? 'less' : 'more'} than ${b}`,
      income: `${a} was billed ${amount} ${less ? 'less' : 'more'} than ${b}`,
    })[by],
  differs: (more: string, low: string, high: string, a: number, b: number) =>
    `${more}; the true difference lies between ${low} and ${high} (9 in 10), from ${a} and ${plural(b, 'animal', 'animals')}.`,
  same: (a: string, b: string, low: string, high: string, na: number, nb: number) =>
    `${a} and ${b} may as well be the same: the difference lies anywhere from ${low} to ${high} (9 in 10), from ${na} and ${plural(nb, 'animal', 'animals')}.`,
  few: (fewest: number) =>
    `With fewer than ${fewest} animals on a side this says little: one odd animal can turn it round.`,
  missing: (name: string, n: number) =>
    n === 0 ? `No animal of “${name}” tells this.` : `Only one animal of “${name}” tells this.`,
  nothing: 'Two on each side are needed before they can be held against each other. Choose wider groups.',
  equal: 'Both groups are the same animals. Change one of them.',
  inBoth: (n: number) =>
    `${plural(n, 'animal is', 'animals are')} in both groups, so the range cannot be trusted. Choose groups that have none in common.`,
  key: 'Above: the dot is the mean, the bar one standard deviation to both sides of it, which holds about two in three animals. Below: the dot is the difference of the means, the bar where the true one lies, 9 times in 10. If the bar crosses the line, the groups may as well be the same. Choose a row to see its animals.',
  source:
    'Range of the difference: two-sample t after B. L. Welch, Biometrika 34 (1947) 28–35; NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.3',
  n: (a: number, b: number) => `n = ${a} and ${b}`,
  group: 'Group',
  animals: 'Animals',
  mean: 'Mean',
  deviation: 'Standard deviation',
  difference: 'Difference',
  differenceIs: (a: string, b: string) => `Difference: ${a} less ${b}`,
};
