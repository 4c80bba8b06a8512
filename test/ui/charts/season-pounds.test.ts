import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PoundsReport } from '../../../src/bridge/contract.ts';
import { lossesStory } from '../../../src/ui/charts/pounds/losses-story.ts';
import { madeStory } from '../../../src/ui/charts/pounds/made-story.ts';
import { poundsStory } from '../../../src/ui/charts/pounds/pounds-story.ts';
import { speciesBarsStory } from '../../../src/ui/charts/yields/species-bars-story.ts';
import { barsOf, faultsOf, linksOf, wordsOf } from '../plots.ts';
import { format, pounds } from '../season-looks.ts';

const LB = 453.59237;
const link = (fate: string): string => `/behind/${fate}`;
const grams = fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 9e6, noNaN: true }));
/** Any season whose parts add up to the hanging weight, as in the desk's answers. */
const anyPounds: fc.Arbitrary<PoundsReport> = fc
  .tuple(fc.array(grams, { minLength: 6, maxLength: 6 }), grams, grams, grams)
  .map(([parts, shrinkGrams, unexplainedGrams, overGrams]) => {
    const like = pounds();
    const weighed = like.parts.map((one, i) => ({ ...one, grams: parts[i] ?? 0 }));
    const all = weighed.reduce((total, one) => total + one.grams, shrinkGrams + unexplainedGrams);
    const over = Math.min(overGrams, all / 2);
    return { ...like, parts: weighed, shrinkGrams, unexplainedGrams, overGrams: over, baseGrams: all - over };
  })
  .filter(({ baseGrams }) => baseGrams > 0);

describe('where the hanging weight went', () => {
  it('states the take-home, the largest loss and the unexplained rest', () => {
    expect(poundsStory(pounds(), format, link).finding).toBe(
      'Of 100 lb hanging weight (12 animals), 62.0% went home. The largest loss is bone, 20.0% of the total. 1.0 lb (1.0%) is unaccounted for.',
    );
  });

  it('prints weight and share of every fate, and links each to its animals', () => {
    const story = poundsStory(pounds(), format, link);
    const print = wordsOf(story);
    for (const said of ['100 lb', '30 lb · 30.0%', '2 lb · 2.0%', '20 lb · 20.0%', '1 lb · 1.0%', '62.0%'])
      expect(print).toContain(said);
    expect(print).toContain('1 lb left in the grinder (3.0%)');
    expect(linksOf(story)).toEqual(
      ['whole cuts', 'trim', 'fat saved', 'bone', 'sinew', 'damage', 'shrink', 'unexplained'].map(link),
    );
    expect(faultsOf(story)).toEqual([]);
  });

  it('conserves weights: what leaves the hook is all that was weighed, and what goes home leaves its parts', () =>
    fc.assert(
      fc.property(anyPounds, (look) => {
        const [flow] = poundsStory(look, format, link).plots;
        if (!flow || !('flows' in flow)) throw new Error('no flow');
        const sum = (of: typeof flow.flows) => of.reduce((total, { amount }) => total + amount, 0);
        const off = flow.flows.filter(({ from }) => from === 'hook');
        expect(sum(off) / (look.baseGrams + look.overGrams)).toBeCloseTo(1, 9);
        const homes = ['whole cuts', 'trim', 'fat saved'];
        const home = flow.flows.filter(({ to }) => to === 'home');
        expect(home.map(({ from, amount }) => [from, amount])).toEqual(
          off.filter(({ to }) => homes.includes(to)).map(({ to, amount }) => [to, amount]),
        );
      }),
    ));

  it('prints shares in picture, table and sentence that add to 100%, also when parts outweigh their animals', () => {
    // 100 lb of parts off a hook that held 96 lb.
    const look = pounds({ baseGrams: 96 * LB, overGrams: 4 * LB });
    const story = poundsStory(look, format, link);
    const print = wordsOf(story);
    const shares = print.flatMap((said) => / · ([\d.]+)%$/.exec(said)?.[1] ?? []).map(Number);
    expect(shares).toHaveLength(story.table.rows.length);
    expect(shares.reduce((all, one) => all + one, 0)).toBeCloseTo(100, 6);
    expect(story.table.rows.map(([, , share]) => share)).toEqual(shares.map((one) => `${one.toFixed(1)}%`));
    expect(print).toContain('62.0%');
    expect(story.finding).toContain('62.0% went home');
  });

  it('can be drawn for any season', () =>
    fc.assert(
      fc.property(anyPounds, (look) => {
        expect(faultsOf(poundsStory(look, format, link))).toEqual([]);
      }),
    ));

  it('shows weight beyond the hook, and asks to look for it', () => {
    const story = poundsStory(pounds({ overGrams: 4 * 453.59237 }), format, link);
    expect(wordsOf(story)).toContain('4.0 lb over');
    expect(story.notes.at(-1)).toContain('4.0 lb in all');
    expect(story.finding).toContain('Of 100 lb hanging weight and 4.0 lb beyond it (12 animals)');
  });

  it('draws nothing without an animal weighed in every part, and says why', () => {
    const story = poundsStory(pounds({ n: 0, others: 2, baseGrams: 0 }), format, link);
    expect(story.plots).toEqual([]);
    expect(story.finding).toContain('The 2 finished animals here were not weighed in every part');
    expect(story.table.rows).toEqual([]);
    expect(poundsStory(pounds({ n: 0, others: 0 }), format, link).finding).toContain(
      'No animals are finished',
    );
  });

  it('leaves out the grinder before anything was ground, and reports few animals', () => {
    const grinder = {
      batches: 0,
      inGrams: 0,
      fatGrams: 0,
      addedGrams: 0,
      outGrams: 0,
      lossGrams: 0,
      driedGrams: 0,
    };
    const story = poundsStory(pounds({ n: 1, grinder }), format, link);
    expect(wordsOf(story).join()).not.toContain('grinder');
    expect(story.finding).toContain('One animal is too few to tell what is typical.');
  });
});

describe('the losses', () => {
  it('are shown in weight and in money, largest first', () => {
    const story = lossesStory(pounds(), format, link);
    expect(story.finding).toBe(
      '29 lb (29.0%) of the hanging weight did not go home. Besides bone, the largest loss was sinew and silverskin: 9 lb, worth $12.25 of work billed.',
    );
    expect(wordsOf(story)).toContain('20 lb  ·  20.0%  ·  $27.22');
    // 300 minor units a kilogram are 136.08 a pound.
    expect(story.notes[0]).toContain('per pound of take-home, $1.36');
    expect(faultsOf(story)).toEqual([]);
  });

  it('have no money before the first bill, and no picture without a loss', () => {
    const losses = [{ what: 'bone' as const, grams: 20 * 453.59237, share: 0.2, minor: null }];
    const story = lossesStory(pounds({ minorPerKg: null, losses }), format, link);
    expect(story.finding).toContain('All of it was bone.');
    expect(story.notes[0]).toContain('No bill of this season');
    expect(story.table.rows[0]).toEqual(['Bone', '20.0 lb', '20.0%', '']);
    expect(lossesStory(pounds({ losses: [] }), format, link).plots).toEqual([]);
  });
});

describe('species side by side', () => {
  const shares = { 'whole cuts': 0.3, trim: 0.3, 'fat saved': 0, bone: 0.2, sinew: 0.1, damage: 0.02, shrink: 0.06, unexplained: 0.02 }; // prettier-ignore
  const kind = (name: string, n: number, some: Partial<typeof shares> = {}) => ({
    code: name.toLowerCase(), name, n, baseGrams: 1000, shares: { ...shares, ...some },
  }); // prettier-ignore
  const told = (...of: ReturnType<typeof kind>[]) =>
    speciesBarsStory(pounds({ species: of }), format, (species, part) => `/${species}/${part}`);

  it('names the largest fates of species with enough animals, and those with too few', () => {
    expect(
      told(kind('Elk', 20), kind('Deer', 30, { trim: 0.25 }), kind('Moose', 2, { trim: 0.9 })).finding,
    ).toBe('Highest take-home: Elk (60%). Lowest: Deer (55%). Too few to tell: Moose (2).');
    expect(told(kind('Elk', 20)).finding).toBe('Elk: 60% of the weight went home.');
  });

  it('writes letter and share on a segment where they fit, and draws no empty ones', () => {
    const story = told(kind('Elk', 20));
    expect(wordsOf(story)).toContain('C 30%');
    expect(wordsOf(story)).not.toContain('F  Fat saved');
    expect(linksOf(story)).toContain('/elk/bone');
    expect(linksOf(story)).not.toContain('/elk/fat saved');
    // The pieces lie end to end.
    const ends = barsOf(story);
    expect(ends.slice(1).map(({ from }) => from)).toEqual(ends.slice(0, -1).map(({ to }) => to));
    expect(ends.at(-1)?.to).toBeCloseTo(1, 12);
    expect(faultsOf(story)).toEqual([]);
  });
});

describe('what the smokehouse made', () => {
  const sticks = {
    product: 'Snack sticks', batches: 2, blockGrams: 40 * LB, addedGrams: 2 * LB, packedGrams: 27 * LB, heatGrams: 14 * LB, leftGrams: 1 * LB,
  }; // prettier-ignore
  const fresh = {
    product: 'Breakfast sausage', batches: 1, blockGrams: 10 * LB, addedGrams: 1 * LB, packedGrams: 10.9 * LB, heatGrams: 0, leftGrams: 0.1 * LB,
  }; // prettier-ignore

  it('states what went in, what was added, what heat took, and shows each product', () => {
    const story = madeStory(pounds({ made: [sticks, fresh] }), format);
    expect(story?.finding).toBe(
      '50 lb of meat and fat and 3 lb of other ingredients became 38 lb of product. Heat took 14 lb, 26.4% of what went in.',
    );
    expect(wordsOf(story!).filter(Boolean)).toEqual([
      '27 lb packed of 42 lb in, 2 lb of it other ingredients; 33.3% lost in heat',
      '11 lb packed of 11 lb in, 1 lb of it other ingredients',
      'Snack sticks',
      'Breakfast sausage',
    ]);
    // In pounds, the shop's unit: 27 packed, 14 lost in heat, 1 left.
    expect(
      barsOf(story!)
        .slice(0, 3)
        .map(({ to }) => Math.round(to * 10) / 10),
    ).toEqual([27, 41, 42]);
    expect(faultsOf(story!)).toEqual([]);
    expect(story?.table.rows[0]).toEqual([
      'Snack sticks',
      '2',
      '40.0 lb',
      '2.0 lb',
      '27.0 lb',
      '14.0 lb',
      '1.0 lb',
    ]);
  });

  it('says nothing where nothing was made', () => {
    expect(madeStory(pounds(), format)).toBeNull();
  });

  it('counts what recipes added beside meat and fat that went through the grinder', () => {
    const { grinder } = pounds();
    const look = pounds({ grinder: { ...grinder, addedGrams: 2 * LB, lossGrams: 3 * LB } });
    expect(wordsOf(poundsStory(look, format, link))).toEqual(
      expect.arrayContaining([
        '30 lb in, 3 lb of bought fat, 2 lb of ingredients',
        '3 lb left in the grinder (8.6%)',
      ]),
    );
  });
});
