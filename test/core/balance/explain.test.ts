import { describe, expect, it } from 'vitest';
import { explain, type Change } from '../../../src/core/balance/explain.ts';
import { parseReading, readingGrams } from '../../../src/core/values/reading.ts';

const LB = 453.59237;
const weight = (id: string, typed: string, more: { hasDuplicate?: boolean; tareGrams?: number } = {}) => ({
  id,
  reading: parseReading(typed, 'lb'),
  tareGrams: 0,
  hasDuplicate: false,
  ...more,
});
/** Weights that should come to `total` pounds, give or take half a pound. */
function sumTo(total: number, weights: readonly ReturnType<typeof weight>[]) {
  return (change?: Change): number => {
    const grams = weights.map(({ id, reading, tareGrams }) => {
      if (change?.id !== id) return readingGrams(reading) - tareGrams;
      return change.as === 'weight' ? change.grams : 0;
    });
    const off = grams.reduce((sum, one) => sum + one, 0) / LB - total;
    return change?.as === 'unknown' ? -3 : -(off * off) / (2 * 0.25);
  };
}
const none = () => [];

describe('explaining inconsistent weights', () => {
  it('finds nothing wrong in consistent weights', () => {
    const weights = [weight('a', '38.5'), weight('b', '61.0')];
    expect(explain(weights, sumTo(99.5, weights), none).odds).toBeLessThan(0.1);
  });

  it.each([
    ['digits-swapped', '83.5', '38.5'],
    ['decimal-slipped', '385', '38.5'],
    ['wrong-unit', '38.5 kg', '38.5'],
  ])('names the slip %s: %s for %s', (kind, typed, right) => {
    const weights = [weight('a', '12.0'), weight('b', typed), weight('c', '7.5')];
    const { odds, weights: found } = explain(weights, sumTo(12 + Number(right) + 7.5, weights), none);
    expect(odds).toBeGreaterThan(10);
    expect(found[0]).toMatchObject({ id: 'b', meant: { kind } });
    const meant = found[0]?.meant?.reading;
    expect(meant && readingGrams(meant) / LB).toBeCloseTo(Number(right), 6);
  });

  it('prefers a duplicate weight to an invented slip of another', () => {
    const weights = [
      weight('a', '65'),
      weight('b', '60'),
      weight('c', '60', { hasDuplicate: true }),
      weight('d', '38'),
    ];
    const { weights: found } = explain(weights, sumTo(163, weights), none);
    expect(found[0]).toMatchObject({ id: 'c', kind: 'weighed-twice' });
    expect(found[0]?.chance).toBeGreaterThan(0.7);
  });

  it("finds a container that was not subtracted if one of the shop's has that weight", () => {
    const weights = [weight('a', '42.5'), weight('b', '61.0')];
    const { weights: found } = explain(weights, sumTo(99.5, weights), () => [4 * LB]);
    expect(found[0]).toMatchObject({ meant: { kind: 'tare-left-in' } });
    const tared = [weight('a', '46.5', { tareGrams: 4 * LB }), weight('b', '61.0')];
    const again = explain(tared, sumTo(99.5, tared), () => [4 * LB]).weights.find(({ id }) => id === 'a');
    expect(again?.meant?.kind).not.toBe('tare-left-in');
  });

  it('finds a duplicate among few weights although other slips could not explain it', () => {
    const weights = [weight('a', '60'), weight('b', '60', { hasDuplicate: true })];
    // One of the two explains all; as entered the set fits at a likelihood of 1 in 18.
    const fit = (change?: Change): number => (change?.as === 'removed' && change.id === 'b' ? 0 : -2.9);
    expect(explain(weights, fit, none, 0.2).odds).toBeGreaterThan(0.2);
  });

  it('fetches the containers only where an explanation could matter', () => {
    const weights = [weight('a', '38.5'), weight('b', '61.0')];
    const asked: number[] = [];
    const containers = () => {
      asked.push(1);
      return [];
    };
    expect(explain(weights, sumTo(99.5, weights), containers, 0.15)).toEqual({ odds: 0, weights: [] });
    expect(asked).toEqual([]);
  });
});
