/** Lots that are used up in turn: how the program grows with them, which is what a plan's time goes by. */
import { describe, expect, it } from 'vitest';
import { planBlend } from '../../../src/core/blend/blend.ts';
import { readRecipe } from '../../../src/core/blend/input.ts';
import { hardConstraints } from '../../../src/core/blend/model.ts';
import { withFifoOrder } from '../../../src/core/blend/fifo.ts';
import type { BlendRequest, BlendSource } from '../../../src/core/blend/types.ts';

/** Trim of an elk and `lots` of one fat, bought one after the other at one price. */
function request(lots: number): BlendRequest {
  const trim: BlendSource = {
    id: 'trim',
    fat: 0.05,
    fatSd: 0.02,
    availableGrams: 27_000,
    costPerKg: 0,
    useAll: true,
  };
  const fats = Array.from({ length: lots }, (_, turn): BlendSource => ({
    id: `lot ${turn}`, fat: 0.7, fatSd: 0.05, availableGrams: 500, costPerKg: 2, queuePosition: turn, stepGrams: 20,
  })); // prettier-ignore
  return { sources: [trim, ...fats], fat: { min: 0.1995, max: 0.2005 } };
}

describe('lots of equal price', () => {
  it('depend only on their predecessor: 300 of them need hundreds of rows and not 45,000', () => {
    const recipe = readRecipe(request(300));
    const ground = hardConstraints(recipe);
    expect(withFifoOrder(ground, recipe).rows.length - ground.rows.length).toBeLessThanOrEqual(2 * 300);
  });

  it('are used in order, however many there are', async () => {
    const answer = await planBlend(request(60));
    if (answer.kind !== 'plan') throw new Error(answer.kind);
    const fats = Array.from(
      { length: 60 },
      (_, i) => answer.parts.find(({ id }) => id === `lot ${i}`)?.grams ?? 0,
    );
    const opened = fats.filter((grams) => grams > 0).length;
    // 27 kg at 5 % and pork fat at 70 % are 20 % with 27 × 0.15 / 0.5 = 8.1 kg of fat: 17 lots of 500 g.
    expect(opened).toBe(17);
    expect(fats.slice(0, 16)).toEqual(fats.slice(0, 16).map(() => 500));
    expect(fats.slice(17).every((grams) => grams === 0)).toBe(true);
  });
});
