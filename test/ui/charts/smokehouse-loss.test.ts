/** The chart of losses of a recipe. */
import { describe, expect, it } from 'vitest';
import type { LossView } from '../../../src/bridge/contract.ts';
import { lossStory } from '../../../src/ui/charts/smokehouse/loss-story.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { linksOf, pointsOf } from '../plots.ts';

const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });
const LB = 453.59237;
type Recipe = LossView['recipes'][number];

/** Batches of 100 lb stuffed with so much packed, in percent. */
function recipeOf(packed: readonly number[], more: Partial<Recipe['forecast']> = {}): Recipe {
  return {
    recipeId: 1,
    recipe: 'Summer sausage',
    forecast: { middle: 0.88, low: 0.84, high: 0.91, level: 0.8, batches: packed.length, assumed: null, ...more },
    batches: packed.map((percent, i) => ({
      id: i + 1, name: `S26-00${i + 1}`, season: 2026, at: '2026-11-20T10:00:00Z', stuffedGrams: 100 * LB, cookedGrams: null,
      packedGrams: percent * LB, loss: 1 - percent / 100, unusual: percent < 80 ? 0.01 : 0.5,
    })),
  }; // prettier-ignore
}
const linkOf = ({ id }: { id: number }): string => `/smokehouse/batch/${id}`;

describe('losses of a recipe', () => {
  it('says what the next batch loses: the rest of its yield, so 88% packed are 12% lost', () => {
    const { finding, n } = lossStory(recipeOf([88, 87, 90, 86, 89]), format, linkOf);
    expect(finding).toBe(
      'Summer sausage loses about 12%. Expect 9% to 16% of the next batch, 8 times in 10.'.replaceAll(
        /(\d+)%/g,
        '$1.0%',
      ),
    );
    expect(n).toBe('5 batches');
  });

  it('names a batch out of the usual, draws it apart and links to it', () => {
    const story = lossStory(recipeOf([88, 87, 90, 70, 89]), format, linkOf);
    expect(story.finding).toContain('Unusual: S26-004. Check its weights.');
    expect(pointsOf(story).map(({ look: { shape } }) => shape)).toEqual([
      'circle',
      'circle',
      'circle',
      'rectRot',
      'circle',
    ]);
    expect(pointsOf(story)[3]?.y).toBeCloseTo(0.3, 12);
    expect(linksOf(story)[3]).toBe('/smokehouse/batch/4');
    expect(story.table.rows[3]).toEqual([
      'S26-004',
      expect.any(String),
      '100.00 lb',
      '',
      '70.00 lb',
      '30.0%',
    ]);
  });

  it('says with few batches what its limits rest on', () => {
    const assumed = {
      name: 'summer sausage',
      low: 0.1,
      high: 0.2,
      source: { grade: 'assumption', source: 'a source' },
    };
    const story = lossStory(recipeOf([88, 87], { assumed: assumed as never }), format, linkOf);
    expect(story.finding).toMatch(
      /^Summer sausage: 2 batches so far, so the limits are based on an assumption about summer sausage:/,
    );
    expect(story.sources).toEqual([{ said: '', published: 'a source' }]);
  });

  it('has no picture without a batch', () =>
    expect(lossStory(recipeOf([]), format, linkOf).plots).toEqual([]));
});
