/** The cautions: each with its source and the day it was read, all hazards of the trade among them, never an undercooked figure. */
import { describe, expect, it } from 'vitest';
import cautions from '../../resources/cautions.json' with { type: 'json' };
import { GROUND_HEAT } from '../../src/core/ground-heat.ts';
import type { Caution, CautionPlace } from '../../src/core/species.ts';
import { cautionsByName } from '../../src/core/species-hazards.ts';

const all = cautions as Caution[];
const toCelsius = (f: number) => ((f - 32) * 5) / 9;
const LAST_DAY = '2026-11-26';

describe.each(all)('$code', ({ hazard, title, text, when, shown, differs, source, url, read }) => {
  it('says what can go wrong, where it is shown, and whom to defer to', () => {
    expect(hazard.length).toBeGreaterThan(5);
    expect(title).not.toMatch(/\.$/);
    expect(text).toMatch(/health department|agency|[Ll]ocal rules/);
    expect(['always', 'species', 'positive result']).toContain(when);
    expect(shown.length).toBeGreaterThan(0);
    expect(new Set(shown).size).toBe(shown.length);
  });

  it('has a source with its address and the day it was read', () => {
    expect(source.length).toBeGreaterThan(20);
    expect(new URL(url).protocol).toMatch(/^https?:$/);
    expect(read).toMatch(/^2026-\d\d-\d\d$/);
    expect(read <= LAST_DAY).toBe(true);
  });

  it('names at least two figures where published ones differ', () => {
    if (differs !== null)
      expect(differs.match(/\d+( °F| °C| %| table| tea)/g)?.length ?? 0).toBeGreaterThan(1);
  });
});

it('covers the hazards of the trade where the work is done', () => {
  const MUST: Record<string, CautionPlace[]> = {
    'ground-heat': ['label', 'pick-up'],
    'trichinella-cooking': ['label', 'pick-up'],
    chill: ['intake', 'rail'],
    trichinella: ['intake', 'table', 'grinder'],
    cwd: ['intake', 'table'],
    lead: ['table', 'grinder'],
    tularaemia: ['intake', 'table'],
    brucellosis: ['intake', 'table'],
    machines: ['table', 'grinder'],
    cleaning: ['table', 'grinder'],
    apart: ['intake', 'grinder', 'label'],
  };
  for (const [code, places] of Object.entries(MUST)) {
    const found = all.find((one) => one.code === code);
    expect(found?.shown, code).toEqual(expect.arrayContaining(places));
  }
});

it('tells one heat for ground meat everywhere, the higher of the two that are published', () => {
  // 160 °F: USDA / foodsafety.gov. 165 °F: CDC MMWR 2024. Neither place may fall back to the lower one.
  expect(GROUND_HEAT.f).toBe(Math.max(160, 165));
  expect(GROUND_HEAT.c).toBe(Math.ceil(toCelsius(GROUND_HEAT.f)));
  const told = all.filter(({ code }) => ['ground-heat', 'trichinella-cooking'].includes(code));
  expect(told).toHaveLength(2);
  for (const { code, title, text } of told) {
    const heats = [...`${title} ${text}`.matchAll(/(\d+) °F \((\d+) °C\)/g)].map(([, f, c]) => [
      Number(f),
      Number(c),
    ]);
    expect(heats.length, code).toBeGreaterThan(1);
    for (const heat of heats) expect(heat, code).toEqual([GROUND_HEAT.f, GROUND_HEAT.c]);
  }
});

describe('cautionsByName', () => {
  it.each([
    ['Snowshoe hare', 'tularaemia'],
    ['Cottontail rabbits', 'tularaemia'],
    ['Groundhog', 'tularaemia'],
    ['Reindeer', 'cwd'],
  ])('warns of what %s may carry', (name, code) =>
    expect(cautionsByName(name, ['chill'])).toEqual(['chill', code]),
  );

  it.each([
    'Grizzly bear',
    'Feral hog',
    'wild boar',
    'Mountain lion',
    'Bobcat',
    'Arctic foxes',
    'Wolves',
    'Lynxes',
  ])('warns of trichinella in %s', (name) =>
    expect(cautionsByName(name, [])).toEqual(expect.arrayContaining(['trichinella', 'trichinella-cooking'])),
  );

  it.each(['Fallow deer', 'Bearded goat', 'Red stag', 'Spiny antelope'])(
    'does not of trichinella in %s',
    (name) => expect(cautionsByName(name, []).filter((code) => code.startsWith('trichinella'))).toEqual([]),
  );

  it('warns of brucellosis in a wild pig', () =>
    expect(cautionsByName('Feral hog', ['chill'])).toContain('brucellosis'));

  it('says nothing twice, and nothing of a name that only sounds alike', () => {
    expect(cautionsByName('Sika deer', ['cwd', 'lead'])).toEqual(['cwd', 'lead']);
    expect(cautionsByName('Shareholder’s goat', ['lead'])).toEqual(['lead']);
  });
});
