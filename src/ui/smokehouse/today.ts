/** What the smokehouse asks for today, read from its lists. */
import type { LoadLine, LoadPage, LoadsView, LossView, MadeLine, MadeView } from '../../bridge/contract.ts';
import { isUnusual } from '../charts/smokehouse/loss-story.ts';

/** Unusual losses are shown for so long. Our choice. */
const DAYS = 14;
const DAY_MS = 86_400_000;

/** What an open load needs next. */
export type LoadStep = 'read' | 'cook' | 'cool' | 'decide' | 'check' | 'close';

export function loadStep({ now, verdict }: Pick<LoadPage, 'now' | 'verdict'>): LoadStep {
  if (now === null) return 'read';
  if ([now.cook, now.cooling].some(({ answer }) => answer === 'not-met')) return 'decide';
  if (now.cook.answer !== 'meets-figures') return 'cook';
  if (now.cooling.answer !== 'meets-figures') return 'cool';
  return verdict?.fresh ? 'close' : 'check';
}

/** Batches that are ready to go in: stuffed, and not weighed out of a smokehouse yet. */
export const toCook = ({ waiting }: LoadsView): MadeLine[] =>
  waiting.filter(({ state }) => state === 'stuffed');

/** Batches that wait for a scale: not those in the smokehouse, nor those ready to go in. */
export function toWeigh({ open }: MadeView, loads: LoadsView): MadeLine[] {
  const elsewhere = new Set([
    ...loads.open.flatMap(({ batches }) => batches.map(({ madeId }) => madeId)),
    ...toCook(loads).map(({ id }) => id),
  ]);
  return open.filter(({ id, state }) => state !== 'packed' && !elsewhere.has(id));
}

/** Loads that were checked, do not meet their figures, and of which nobody decided or which are on hold. */
export function toDecide({ open, recent }: LoadsView): LoadLine[] {
  return [...open, ...recent].filter(
    ({ verdict, decided }) =>
      verdict &&
      [verdict.cook, verdict.cooling].some((answer) => answer !== 'meets-figures') &&
      (decided === null || decided === 'hold'),
  );
}

/** Batches of the last days that lost more or less than is usual for their recipe, newest first. */
export function oddLosses({ recipes }: LossView, today: string): LossView['recipes'][number]['batches'] {
  const since = Date.parse(today) - DAYS * DAY_MS;
  return recipes
    .flatMap(({ batches }) => batches)
    .filter((one) => isUnusual(one) && Date.parse(one.at) >= since)
    .toSorted((a, b) => b.at.localeCompare(a.at));
}
