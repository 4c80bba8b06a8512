/** What the smokehouse asks for today. */
import { expect, it } from 'vitest';
import type { HeatAnswer, LoadLine, LoadPage, LossView, MadeLine } from '../../../src/bridge/contract.ts';
import { loadStep, oddLosses, toCook, toDecide, toWeigh } from '../../../src/ui/smokehouse/today.ts';

const verdict = (cook: HeatAnswer, cooling: HeatAnswer, fresh = true): LoadLine['verdict'] => ({
  cook,
  cooling,
  fresh,
});
const now = (cook: HeatAnswer, cooling: HeatAnswer): LoadPage['now'] => {
  const of = (answer: HeatAnswer) => ({ answer, notMet: [], missing: [] });
  return { cook: of(cook), cooling: of(cooling) };
};
const load = (id: number, more: Partial<LoadLine> = {}): LoadLine => ({
  id, name: `L26-00${id}`, oven: '', state: 'open', batches: [], readings: 0, lastF: null, lastAt: null, verdict: null, decided: null,
  at: '2026-11-24T12:00:00Z', by: 'AB', ...more,
}); // prettier-ignore
const made = (id: number, state: MadeLine['state']): MadeLine => ({
  id, name: `S26-00${id}`, recipeId: 1, recipe: 'Jerky', product: 'Jerky', batchId: id, batch: `G26-00${id}`, tickets: [], state,
  finish: 'dried', blockGrams: null, addedGrams: 0, stuffedGrams: null, cookedGrams: null, packedGrams: null, packages: 0,
  proof: { cook: 'not-proven', cooling: 'not-proven', loads: [], readyToEat: false, missing: [] }, at: '', by: 'AB',
}); // prettier-ignore

it.each([
  [null, null, 'read'],
  [now('not-proven', 'not-proven'), null, 'cook'],
  [now('not-met', 'meets-figures'), null, 'decide'],
  [now('not-proven', 'not-met'), null, 'decide'],
  [now('meets-figures', 'not-proven'), null, 'cool'],
  [now('meets-figures', 'meets-figures'), null, 'check'],
  [now('meets-figures', 'meets-figures'), verdict('meets-figures', 'meets-figures', false), 'check'],
  [now('meets-figures', 'meets-figures'), verdict('meets-figures', 'meets-figures'), 'close'],
] as const)('a load with %j, judged %j, needs %s', (judged, stored, step) =>
  expect(loadStep({ now: judged, verdict: stored })).toBe(step),
);

it('waits for a decision once it was checked and fell short, until somebody decided more than to hold it', () => {
  const open = [load(1), load(2, { verdict: verdict('not-met', 'not-proven') })];
  const recent = [
    load(3, { verdict: verdict('meets-figures', 'not-proven'), decided: 'hold' }),
    load(4, { verdict: verdict('not-met', 'not-met'), decided: 'discard' }),
    load(5, { verdict: verdict('meets-figures', 'meets-figures') }),
  ];
  expect(toDecide({ open, recent, waiting: [], ovens: [] }).map(({ id }) => id)).toEqual([2, 3]);
});

it('waits for a scale unless it is in a smokehouse, ready to go in, or packed', () => {
  const inside = load(1, {
    batches: [{ loadBatchId: 1, madeId: 2, name: '', product: '', stuffedGrams: 1 }],
  });
  const open = [
    made(1, 'started'),
    made(2, 'stuffed'),
    made(3, 'stuffed'),
    made(4, 'cooked'),
    made(5, 'packed'),
  ];
  const loads = { open: [inside], recent: [], waiting: [made(3, 'stuffed'), made(4, 'cooked')], ovens: [] };
  expect(toCook(loads).map(({ id }) => id)).toEqual([3]);
  expect(toWeigh({ open, recent: [], grinds: [] }, loads).map(({ id }) => id)).toEqual([1, 4]);
});

it('lists unusual losses of the last two weeks, newest first', () => {
  const batch = (id: number, at: string, unusual: number | null) => ({
    id, name: '', season: 2026, at, stuffedGrams: 100, cookedGrams: null, packedGrams: 80, loss: 0.2, unusual,
  }); // prettier-ignore
  const batches = [
    batch(1, '2026-11-01T10:00:00Z', 0.01),
    batch(2, '2026-11-20T10:00:00Z', 0.01),
    batch(3, '2026-11-22T10:00:00Z', 0.3),
    batch(4, '2026-11-23T10:00:00Z', 0.02),
    batch(5, '2026-11-23T10:00:00Z', null),
  ];
  const view = { recipes: [{ recipeId: 1, recipe: '', forecast: {}, batches }] } as unknown as LossView;
  expect(oddLosses(view, '2026-11-24').map(({ id }) => id)).toEqual([4, 2]);
});
