import type { OwnerGroup, OwnerMeasure } from '../../bridge/contract.ts';
import { text as compareText } from '../../words/compiled/window/season/compare.ts';
import { text } from '../../words/compiled/window/season/shops.ts';
import type { Format } from '../texts/format.ts';

/** The figure that groups are ordered by: the median, or hours of work. */
export const figureOf = ({ spread, facts }: OwnerGroup): number | null =>
  spread ? spread.median : (facts.hours ?? null);

/** Writes the figure of a measure: shares, points of fat, money, weights, hours. */
export function writerOf(
  measure: OwnerMeasure,
  format: Format,
  currency: string | null,
): (x: number) => string {
  if (measure === 'money') return (x) => format.money(Math.round(x), currency ?? undefined);
  if (measure === 'backlog') return (x) => format.number(x, 1);
  if (measure === 'takeHome') return (x) => format.share(x);
  return (x) => compareText.points({ number: format.number(x * 100, 1) }).replace('-', '−');
}

/** What a group comes to in all. */
export function totalOf(
  measure: OwnerMeasure,
  { facts, spread, currency }: OwnerGroup,
  format: Format,
): string {
  const of = (count = 0): string => `${count} / ${spread?.n ?? 0}`;
  switch (measure) {
    case 'takeHome':
      return format.mass(facts.takeHomeGrams ?? 0, 0);
    case 'fat':
      return of(facts.onTarget);
    case 'money':
      return format.money(facts.subtotalMinor ?? 0, currency ?? undefined);
    case 'backlog':
      return format.mass(facts.trimGrams ?? 0, 0);
    case 'quotes':
      return of(facts.held);
  }
}

/** Which group is highest and which lowest; empty where there is nothing to compare. */
export function shopsFinding(
  measure: OwnerMeasure,
  groups: readonly { name: string; group: OwnerGroup }[],
  format: Format,
): string {
  const known = groups
    .flatMap(({ name, group }) => {
      const x = figureOf(group);
      return x === null
        ? []
        : [{ name, x, said: writerOf(measure, format, group.currency)(x), of: group.currency }];
    })
    .sort((a, b) => b.x - a.x);
  const [first, last] = [known[0], known.at(-1)];
  if (!first || !last) return text.none;
  // One group has nothing to be compared with, and amounts of two currencies have no order.
  if (first === last || new Set(known.map(({ of }) => of)).size > 1) return '';
  return text.most({ measure, name: first.name, most: first.said, last: last.name, least: last.said });
}
