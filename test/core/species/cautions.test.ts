/** The cautions: each with its source and the day it was read, all hazards of the trade among them, never an undercooked figure. */
import { describe, expect, it } from 'vitest';
import cautions from '../../../resources/cautions.json' with { type: 'json' };
import species from '../../../resources/species.json' with { type: 'json' };
import { GROUND_HEAT } from '../../../src/core/cold/ground-heat.ts';
import type { Caution, CautionPlace } from '../../../src/core/species/species.ts';
import { cautionsByName } from '../../../src/core/species/hazards.ts';
import { text as fatText } from '../../../src/words/compiled/window/fat.ts';
import { text as railText } from '../../../src/words/compiled/window/rail.ts';

const all = cautions as Caution[];
const toCelsius = (f: number) => ((f - 32) * 5) / 9;
const LAST_DAY = '2026-11-29';

describe.each(all)('$code', ({ hazard, title, text, when, shown, differs, source, url, read }) => {
  it('states the hazard and where it is shown', () => {
    expect(hazard.length).toBeGreaterThan(5);
    expect(title).not.toMatch(/\.$/);
    // Said once for each place instead.
    expect(text).not.toMatch(/[Ll]ocal rules|has the last word/);
    expect(`${title} ${text} ${differs ?? ''}`).not.toMatch(/colour|litre|licence|sanitise|tularaemia/i);
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
    if (differs !== null) expect(differs.match(/\d+(°F|°C|%| table| ml)/g)?.length ?? 0).toBeGreaterThan(1);
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

it('gives one temperature for ground meat everywhere, the higher of the two published', () => {
  // 160°F: USDA / foodsafety.gov. 165°F: CDC MMWR 2024. Neither place may fall back to the lower one.
  expect(GROUND_HEAT.f).toBe(Math.max(160, 165));
  expect(GROUND_HEAT.c).toBe(Math.ceil(toCelsius(GROUND_HEAT.f)));
  const told = all.filter(({ code }) => ['ground-heat', 'trichinella-cooking'].includes(code));
  expect(told).toHaveLength(2);
  for (const { code, title, text } of told) {
    const heats = [...`${title} ${text}`.matchAll(/(\d+)°F \((\d+)°C\)/g)].map(([, f, c]) => [
      Number(f),
      Number(c),
    ]);
    expect(heats.length, code).toBeGreaterThan(1);
    for (const heat of heats) expect(heat, code).toEqual([GROUND_HEAT.f, GROUND_HEAT.c]);
  }
});

/**
 * "Brucellosis: Hunters", CDC, https://www.cdc.gov/brucellosis/exposure/hunters.html: wild hogs, elk, bison, caribou,
 * moose and deer, and bears and wolves that fed on them.
 */
describe('brucellosis', () => {
  it.each(['white-tail', 'mule-deer', 'elk', 'moose', 'caribou', 'bison', 'wild-boar', 'black-bear'])(
    'is told at %s',
    (code) => expect(species.find((one) => one.code === code)?.cautions).toContain('brucellosis'),
  );

  it.each([
    'Feral hog',
    'Red deer',
    'Wapiti',
    'Wood bison',
    'Reindeer',
    'Shiras moose',
    'Grizzly',
    'Gray wolf',
  ])('is told at the shop’s own %s', (name) => expect(cautionsByName(name, [])).toContain('brucellosis'));

  it("names the agency's animals in one sentence", () =>
    expect(all.find(({ code }) => code === 'brucellosis')?.text).toMatch(
      /^Wild pigs, elk, bison, caribou, moose and deer may carry brucellosis, and so may bears and wolves/,
    ));
});

describe('warm meat', () => {
  const told = all.find(({ code }) => code === 'chill');

  // "Food Safety: Bacteria, Spoilage", USDA FSIS: what makes people ill does not generally change taste, smell or looks.
  it('is never judged by smell or looks, here or at a warm cooler', () => {
    expect(told?.text).toMatch(/Never judge warm meat by smell or looks/);
    expect(told?.text).not.toMatch(/to look and to smell/);
    expect(railText.warmDo).toMatch(/not judge the meat by smell or looks/);
    expect(fatText.usePastHow({ day: 'Nov 3' })).not.toMatch(/smell it/);
  });

  it('above 40°F for more than 2 hours is held, measured and asked about', () => {
    for (const text of [told?.text, railText.warmDo]) {
      expect(text).toMatch(/above 40°F.* for more than 2 hours/);
      expect(text).toMatch(/on hold/);
      expect(text).toMatch(/[Mm]easure it/);
      expect(text).toMatch(/inspector/);
    }
  });
});

describe('prions', () => {
  const told = all.find(({ code }) => code === 'positive-clean');

  // Williams et al., PLoS ONE 14(10):e0223659, 2019: 40 % household bleach, 5 minutes, stainless steel; not in solid tissue.
  it('are removed by the published cleaning with its limits', () => {
    expect(2 / (2 + 3)).toBe(0.4);
    expect(told?.text).toMatch(/2 parts household bleach to 3 parts water for 5 minutes, on stainless steel/);
    expect(told?.text).toMatch(/surfaces only/);
    expect(told?.text).toMatch(/does not work inside tissue/);
    expect(told?.source).toMatch(/e0223659/);
  });

  it('are not described as destroyed by cooking', () =>
    expect(all.find(({ code }) => code === 'cwd')?.text).toMatch(/Cooking does not destroy prions/));
});

it('cites the outbreak report itself for 165°F', () => {
  for (const code of ['ground-heat', 'trichinella-cooking', 'trichinella']) {
    const one = all.find((caution) => caution.code === code);
    expect(one?.url, code).toBe('https://www.cdc.gov/mmwr/volumes/73/wr/mm7320a2.htm');
    expect(one?.source, code).not.toMatch(/Penn State/);
  }
  expect(GROUND_HEAT.source).not.toMatch(/second-hand/);
});

it('cites no blog, forum, newspaper or content farm', () => {
  for (const { code, url, source } of all)
    expect(`${url} ${source}`, code).not.toMatch(
      /blog|forum|experts123|outdoorhub|startribune|Star Tribune|\.guru/i,
    );
});

describe('cautionsByName', () => {
  it.each([
    ['Snowshoe hare', 'tularaemia'],
    ['Cottontail rabbits', 'tularaemia'],
    ['Groundhog', 'tularaemia'],
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

  it('warns of wasting disease in reindeer', () =>
    expect(cautionsByName('Reindeer', [])).toEqual(expect.arrayContaining(['cwd'])));

  it('gives no duplicates, and nothing for a name that only sounds alike', () => {
    expect(cautionsByName('Sika deer', ['cwd', 'lead'])).toEqual(['cwd', 'lead', 'brucellosis']);
    expect(cautionsByName('Shareholder’s goat', ['lead'])).toEqual(['lead']);
  });
});
