/** The figures that come with the program hold together, and nothing undercooked is ever told. */
import { describe, expect, it } from 'vitest';
import cautions from '../../resources/cautions.json' with { type: 'json' };
import species from '../../resources/species.json' with { type: 'json' };
import type { Caution, SpeciesProfile } from '../../src/core/species.ts';

const profiles = species as SpeciesProfile[];
const warnings = cautions as Caution[];

/** Every object that gives a figure, with its path. */
function figures(node: unknown, path: string): { path: string; node: Record<string, unknown> }[] {
  if (typeof node !== 'object' || node === null) return [];
  const inside = Object.entries(node).flatMap(([key, value]) => figures(value, `${path}.${key}`));
  return 'mean' in node || 'typical' in node ? [{ path, node: { ...node } }, ...inside] : inside;
}

describe.each(profiles)('$name', (profile) => {
  it('gives a source with every figure', () => {
    const all = figures(profile, profile.code);
    expect(all.length).toBeGreaterThanOrEqual(12);
    for (const { path, node } of all) expect(String(node.source).length, path).toBeGreaterThan(10);
    expect(profile.primalsSource.length).toBeGreaterThan(10);
    expect(profile.cookTo.source.length).toBeGreaterThan(10);
  });

  it('has weights in order and shares inside (0, 1)', () => {
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
  });

  it('divides loss and carcass without remainder', () => {
    const { bone, sinew, damage, shrink } = profile.loss;
    expect(bone.mean + sinew.mean + damage.mean + shrink.mean).toBeCloseTo(1, 9);
    expect(profile.primals.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 9);
    expect(new Set(profile.primals.map(({ code }) => code)).size).toBe(profile.primals.length);
  });

  it('names cautions that exist', () => {
    const known = warnings.map(({ code }) => code);
    for (const code of profile.cautions) expect(known).toContain(code);
  });

  it('cooks ground meat to 160 F at least, bear, boar and cougar to 165 F, and says so', () => {
    const hot = ['black-bear', 'wild-boar', 'cougar'].includes(profile.code);
    expect(profile.cookTo.ground).toEqual(hot ? { f: 165, c: 74 } : { f: 160, c: 71 });
    expect(profile.cautions).toContain(hot ? 'ground-165' : 'ground-160');
    expect(profile.cautions).not.toContain(hot ? 'ground-160' : 'ground-165');
    // 160 F is 71.1 C and 165 F is 73.9 C: the whole degrees shown are never more than 0.2 C short.
    const { f, c } = profile.cookTo.ground;
    expect(c).toBeGreaterThan(((f - 32) * 5) / 9 - 0.2);
  });
});

it('warns of wasting disease for every deer and of trichinella for every carrier', () => {
  const warned = (code: string) => profiles.filter((p) => p.cautions.includes(code)).map((p) => p.code);
  expect(warned('cwd')).toEqual(profiles.filter((p) => p.family === 'deer').map((p) => p.code));
  expect(warned('trichinella').sort()).toEqual(['black-bear', 'cougar', 'wild-boar']);
  expect(warned('brucellosis')).toEqual(['wild-boar']);
});

it('gives each species and caution once, each caution with a source, a place and somebody to defer to', () => {
  expect(new Set(profiles.map(({ code }) => code)).size).toBe(profiles.length);
  expect(new Set(warnings.map(({ code }) => code)).size).toBe(warnings.length);
  for (const { code, source, url, text, shown } of warnings) {
    expect(source.length, code).toBeGreaterThan(20);
    expect(url, code).toMatch(/^https?:\/\//);
    expect(shown.length, code).toBeGreaterThan(0);
    expect(text, code).toMatch(/health department|agency|[Ll]ocal rules/);
  }
});
