/** The figures that come with the program hold together. */
import { describe, expect, it } from 'vitest';
import cautions from '../../../resources/cautions.json' with { type: 'json' };
import species from '../../../resources/species.json' with { type: 'json' };
import type { Caution, SpeciesProfile } from '../../../src/core/species/species.ts';
import { expectNoRemainder, expectSources, expectWeightsAndShares } from './whole-profile.ts';

const profiles = species as SpeciesProfile[];
const warnings = cautions as Caution[];

describe.each(profiles)('$name', (profile) => {
  it('gives a source with every figure', () => expectSources(profile));

  it('has weights in order and shares inside (0, 1)', () => expectWeightsAndShares(profile));

  it('divides loss and carcass without remainder', () => expectNoRemainder(profile));

  it('names existing cautions', () => {
    const known = warnings.map(({ code }) => code);
    for (const code of profile.cautions) expect(known).toContain(code);
  });
});

it('warns of wasting disease for every deer and of trichinella for every carrier', () => {
  const warned = (code: string) => profiles.filter((p) => p.cautions.includes(code)).map((p) => p.code);
  expect(warned('cwd')).toEqual(profiles.filter((p) => p.family === 'deer').map((p) => p.code));
  for (const code of ['trichinella', 'trichinella-cooking'])
    expect(warned(code).sort()).toEqual(['black-bear', 'cougar', 'wild-boar']);
  // CDC, "Brucellosis: Hunters": wild hogs, elk, bison, caribou, moose, deer; bears as predators of them.
  expect(warned('brucellosis').sort()).toEqual(['bison', 'black-bear', 'wild-boar', ...warned('cwd')].sort());
});

it('has each species and caution once', () => {
  expect(new Set(profiles.map(({ code }) => code)).size).toBe(profiles.length);
  expect(new Set(warnings.map(({ code }) => code)).size).toBe(warnings.length);
});
