import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SeasonFilter } from '../../../src/bridge/contract.ts';
import { filterWords } from '../../../src/ui/season-frame/filter-words.ts';
import {
  drilldownLink,
  filterOf,
  linkTo,
  narrows,
  queryOf,
} from '../../../src/ui/season-frame/season-query.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const day = fc.date({ min: new Date('2000-01-01'), max: new Date('2099-12-31'), noInvalidDate: true }).map((one) => one.toISOString().slice(0, 10)); // prettier-ignore
const anyFilter: fc.Arbitrary<SeasonFilter> = fc.record(
  {
    season: fc.integer({ min: 1990, max: 2099 }),
    species: fc.string({ minLength: 1 }),
    from: day,
    to: day,
    brought: fc.constantFrom('whole', 'skinned', 'quarters', 'primals', 'boned'),
    sex: fc.constantFrom('male', 'female', 'unknown'),
    age: fc.constantFrom('young', 'yearling', 'adult', 'unknown'),
    damaged: fc.boolean(),
    detail: fc.constantFrom('detailed', 'quick'),
    cutter: fc.string({ minLength: 1 }),
  },
  { requiredKeys: [] },
);

describe('a filter in the address', () => {
  it('survives a round trip, under any prefix and through a link', () =>
    fc.assert(
      fc.property(anyFilter, fc.constantFrom('', 'a.', 'b.'), (filter, prefix) => {
        expect(filterOf(queryOf(filter, prefix), prefix)).toEqual(filter);
        const link = new URL(linkTo('/season', filter), 'http://here');
        expect(filterOf(Object.fromEntries(link.searchParams))).toEqual(filter);
      }),
    ));

  it('ignores invalid values', () => {
    const query = { season: 'abc', brought: 'flying', damaged: 'maybe', from: '1.11.', species: ['elk', 'moose'], sex: 'male' }; // prettier-ignore
    expect(filterOf(query)).toEqual({ sex: 'male' });
  });

  it('separates different prefixes', () => {
    expect(filterOf({ species: 'elk', 'a.species': 'moose' }, 'a.')).toEqual({ species: 'moose' });
  });

  it('reports whether anything but the season filters', () => {
    expect(narrows({ season: 2026 })).toBe(false);
    expect(narrows({ season: 2026, damaged: false })).toBe(true);
  });

  it('links to the animals behind a mark in the order of its measure', () => {
    expect(drilldownLink({ species: 'elk', damaged: false }, 'bone')).toBe(
      '/season/animals?species=elk&damaged=no&order=bone',
    );
    expect(drilldownLink({})).toBe('/season/animals');
  });
});

describe('a filter in words', () => {
  const said = (filter: SeasonFilter) => filterWords(filter, () => 'Elk', format);

  it('names each part', () => {
    expect(
      said({ season: 2026, species: 'elk', brought: 'skinned', sex: 'female', age: 'adult', damaged: false, detail: 'quick', cutter: 'JB' }),
    ).toEqual(['Elk', 'skinned', 'females', 'adults', 'without shot damage', 'hanging and packed only', 'cut by JB']); // prettier-ignore
  });

  it.each([
    [{ from: '2026-11-01', to: '2026-11-09' }, ['received Sun, Nov 1 to Mon, Nov 9']],
    [{ from: '2026-11-01' }, ['received since Sun, Nov 1']],
    [{ to: '2026-11-09' }, ['received until Mon, Nov 9']],
    [{ season: 2026 }, []],
  ])('formats %j as %j', (filter, words) => expect(said(filter)).toEqual(words));
});
