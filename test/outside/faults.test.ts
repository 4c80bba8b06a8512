/**
 * Deliberate faults must break every result on cures and composition: half a percent too much in each formula, four in what a casing holds
 * (its tolerance is wide), and a limit rounded up.
 */
import { describe, expect, it, vi } from 'vitest';
import type * as Casing from '../../src/core/curing/casing.ts';
import type * as Composition from '../../src/core/curing/composition.ts';
import type * as Ingoing from '../../src/core/curing/ingoing.ts';
import type { CureLimit } from '../../src/core/curing/limits.ts';
import type * as Mix from '../../src/core/curing/mix.ts';

const TOO_MUCH = 1.005;

vi.mock('../../src/core/curing/ingoing.ts', async (original) => {
  const real = await original<typeof Ingoing>();
  const faulty: typeof Ingoing = {
    ...real,
    ingoingPpm: (...args) => TOO_MUCH * real.ingoingPpm(...args),
    agentGramsFor: (...args) => TOO_MUCH * real.agentGramsFor(...args),
  };
  return faulty;
});

vi.mock('../../src/core/curing/mix.ts', async (original) => {
  const real = await original<typeof Mix>();
  return { ...real, asPotassium: (sodium: number) => 1.01 * real.asPotassium(sodium) };
});

vi.mock('../../src/core/curing/composition.ts', async (original) => {
  const real = await original<typeof Composition>();
  const faulty: typeof Composition = {
    ...real,
    addedWater: (...args) => TOO_MUCH * real.addedWater(...args),
    proteinFatFree: (...args) => TOO_MUCH * real.proteinFatFree(...args),
    yieldAtRatio: (...args) => TOO_MUCH * real.yieldAtRatio(...args),
    mostWater: (...args) => TOO_MUCH * real.mostWater(...args),
    shareOfMeat: (...args) => TOO_MUCH * real.shareOfMeat(...args),
    fromPickle: (...args) => TOO_MUCH * real.fromPickle(...args),
  };
  return faulty;
});

vi.mock('../../src/core/curing/casing.ts', async (original) => {
  const real = await original<typeof Casing>();
  return { ...real, casingGrams: (casing: Casing.Casing) => 1.04 * real.casingGrams(casing) };
});

vi.mock('../../resources/cure-limits.json', async (original) => {
  const real = await original<{ default: CureLimit[] }>();
  return {
    default: real.default.map((limit) => ({ ...limit, ppm: limit.ppm === 156.25 ? 157 : limit.ppm })),
  };
});

const { compositions } = await import('./results/compositions.ts');
const { cures } = await import('./results/cures.ts');
const { isNear } = await import('./nearness.ts');

describe('a fault breaks', () => {
  it.each([...cures, ...compositions])('$name', async ({ expected, ours, near }) => {
    expect(isNear(expected, await ours(), near)).toBe(false);
  });
});
