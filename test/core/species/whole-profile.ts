import { expect } from 'vitest';
import cautions from '../../../resources/cautions.json' with { type: 'json' };
import type { SpeciesProfile } from '../../../src/core/species/species.ts';

/** Every object that gives a figure, with its path. */
function figures(node: unknown, path: string): { path: string; node: Record<string, unknown> }[] {
  if (typeof node !== 'object' || node === null) return [];
  const inside = Object.entries(node).flatMap(([key, value]) => figures(value, `${path}.${key}`));
  return 'mean' in node || 'typical' in node ? [{ path, node: { ...node } }, ...inside] : inside;
}

/** What holds of every profile, supplied or a shop's own. */
export function expectWholeProfile(profile: SpeciesProfile): void {
  expectSources(profile);
  expectWeightsAndShares(profile);
  expectNoRemainder(profile);
  const known = cautions.map(({ code }) => code);
  for (const code of profile.cautions) expect(known).toContain(code);
}

/** A source with every figure. */
export function expectSources(profile: SpeciesProfile): void {
  const all = figures(profile, profile.code);
  expect(all.length).toBeGreaterThanOrEqual(12);
  for (const { path, node } of all) expect(String(node.source).length, path).toBeGreaterThan(10);
  expect(profile.primalsFrom.source.length).toBeGreaterThan(10);
}

/** Weights in order and shares inside (0, 1). */
export function expectWeightsAndShares(profile: SpeciesProfile): void {
  const { least, low, typical, high, most } = profile.hangingGrams;
  const weights = [least, low, typical, high, most];
  expect(weights).toEqual([...weights].sort((a, b) => a - b));
  expect(least).toBeGreaterThan(1000);
  for (const { path, node } of figures(profile, profile.code)) {
    if (!('mean' in node)) continue;
    expect(node.mean, path).toBeGreaterThan(0);
    expect(node.mean, path).toBeLessThan(1);
    expect(node.sd, path).toBeGreaterThan(0);
  }
  const { takeHome } = profile;
  expect(takeHome.low).toBeLessThan(takeHome.mean);
  expect(takeHome.high).toBeGreaterThan(takeHome.mean);
}

/** Loss and carcass divided without remainder, each piece once. */
export function expectNoRemainder({ loss, primals }: SpeciesProfile): void {
  const { bone, sinew, damage, shrink } = loss;
  expect(bone.mean + sinew.mean + damage.mean + shrink.mean).toBeCloseTo(1, 9);
  expect(primals.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 9);
  expect(new Set(primals.map(({ code }) => code)).size).toBe(primals.length);
}
