import { describe, expect, it } from 'vitest';
import { readingGrams } from '../../../src/core/values/reading.ts';
import { loadsIn } from '../../../src/ui/parts/weight-echo.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

/** A typed weight as the screens show it in a shop whose scale has this step. */
function shown(typed: string, step: number): string {
  const reading = loadsIn(typed, 'lb');
  if (!reading) throw new Error(`${typed} is no weight`);
  return makeFormat({ unit: 'lb', step, locale: 'en-US', currency: 'USD' }).mass(readingGrams(reading));
}

describe('a weight', () => {
  // 2 oz are 0.125 lb: the scale's step is of what it shows, not of what somebody typed.
  it.each([
    ['108 lb 2 oz', 0.05, '108.13 lb'],
    ['148.88', 0.05, '148.88 lb'],
    ['18.61', 0.02, '18.61 lb'],
    ['84.5', 0.5, '84.5 lb'],
    ['84.6', 0.2, '84.6 lb'],
  ])('typed as %s is not rounded to the scale’s step of %d', (typed, step, text) =>
    expect(shown(typed, step)).toBe(text),
  );
});
