/** What another shop might give, and a shop that has something to give. */
import { lessonText, type LessonText } from '../../../src/desk/learning/lesson-text.ts';
import { logit } from '../../../src/core/yield/tree.ts';
import { cut, takeIn, type FreshDesk } from '../fresh-desk.ts';

/** Sums over `n` equal shares with a spread of 0.2 on the logit scale. */
export function sumsAt(share: number, n: number): { n: number; sum: number; squares: number } {
  const y = logit(share);
  return { n, sum: n * y, squares: n * (y * y + 0.04) };
}

let marks = 0;

/** A lesson of another shop than those before: by default 40 skinned elk that took home 50 %. */
export function lessonOf(more: Partial<LessonText> = {}): string {
  marks += 1;
  return lessonText({
    source: `00000000-0000-4000-8000-${String(marks).padStart(12, '0')}`,
    made: '2026-10-01',
    animals: 40,
    batches: 0,
    yields: [
      {
        species: 'elk',
        brought: 'skinned',
        animals: 40,
        sexes: { male: 0.6, female: 0.4 },
        ages: { unknown: 1 },
        damages: { unknown: 1 },
        splits: { takeHome: sumsAt(0.5, 40) },
      },
    ],
    fat: null,
    losses: [],
    ...more,
  });
}

/** Five finished animals of one kind. */
export async function giveable(shop: FreshDesk): Promise<void> {
  for (let i = 0; i < 5; i++) {
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': String(90 + i), trim: '140', bone: '70', sinew: '40' });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  }
}
