/** The order of work of a batch. */
import { describe, expect, it } from 'vitest';
import type { MadeLabel, MadePage } from '../../../../src/bridge/contract.ts';
import { ingredientText, labelLines, madeRuns } from '../../../../src/ui/smokehouse/batches/made-runs.ts';
import { nextStep } from '../../../../src/ui/smokehouse/batches/next-step.ts';
import { cureLast } from '../../../../src/ui/smokehouse/words.ts';
import { loadLanguage } from '../../../../src/words/load.ts';

it('puts cure and accelerator after everything else, each in the order of the recipe', () => {
  const amounts = (['cure', 'salt', 'accelerator', 'water'] as const).map((role) => ({ role }));
  expect(cureLast(amounts).map(({ role }) => role)).toEqual(['salt', 'water', 'cure', 'accelerator']);
});

it.each([
  ['open', 'cooked', null, 'meat'],
  ['open', 'cooked', {}, 'start'],
  ['started', 'cooked', {}, 'weigh'],
  ['stuffed', 'cooked', {}, 'cook'],
  ['stuffed', 'dried', {}, 'cook'],
  ['stuffed', 'raw', {}, 'pack'],
  ['cooked', 'cooked', {}, 'pack'],
  ['packed', 'cooked', {}, 'done'],
] as const)('of one that is %s and %s: %s leads to %s', (state, finish, sheet, step) =>
  expect(nextStep({ state, finish, sheet, proof: label.proof })).toBe(step),
);

it('is not to go into the smokehouse again once it is in a load, unless that was decided', () => {
  const inLoad = (...again: boolean[]) => ({
    state: 'stuffed' as const,
    finish: 'cooked' as const,
    proof: { ...label.proof, loads: again.map((one, i) => ({ id: i, name: `L26-00${i}`, fresh: false, again: one })) },
  }); // prettier-ignore
  expect(nextStep(inLoad(false))).toBe('out');
  expect(nextStep(inLoad(true))).toBe('cook');
  expect(nextStep(inLoad(true, false))).toBe('out');
});

const label: MadeLabel = {
  madeId: 1, name: 'S26-001', batch: 'G26-001', product: 'Jerky', state: 'dried', keep: 'refrigerated', cookTo: { f: 160, c: 71 },
  proof: { cook: 'not-proven', cooling: 'not-proven', loads: [], readyToEat: false, missing: [] }, ingredients: [],
  allergens: { contains: [], unknown: [] }, cure: null, notForSale: true, species: ['Elk'], owners: [], packages: 2, packedGrams: 900,
  on: '2026-11-24', findings: [],
}; // prettier-ignore

describe('the label of a made product', () => {
  it('says how it is kept in the language of who reads it, and which that is', async () => {
    await Promise.all([loadLanguage('es-MX'), loadLanguage('fr-CA')]);
    const milk = { contains: [{ allergen: 'milk' as const, kinds: [] }], unknown: ['Mustard'] };
    const said = { ...label, allergens: milk };
    expect(labelLines(said, 'es-MX')[0]).toBe('SECO · MANTÉNGASE REFRIGERADO');
    expect(labelLines(said, 'fr-CA')[0]).toContain('GARDER RÉFRIGÉRÉ');
    expect(labelLines(said, 'es-MX').join(' ')).toMatch(/71.*Leche/s);
    const packs = [{ id: 1, product: 'Jerky', count: 2, grams: 900, at: '2026-11-24T15:00:00Z' }];
    const owners = [{ ticket: '26-0001', hunter: 'Ann Alder', language: 'es-MX' as const, packages: 2 }];
    const writing = {
      unit: 'lb',
      locale: 'en-US',
      zone: 'America/Denver',
      language: 'es-MX',
      longDay: String,
      kindOf: () => undefined,
    } as const;
    const [run] = madeRuns({ ...said, owners }, { packs } as unknown as MadePage, writing);
    expect(run).toMatchObject({ copies: 2, label: { language: 'es-MX', made: labelLines(said, 'es-MX') } });
    expect(run?.label.net).toMatch(/^PESO NETO/);
  });

  it('says ready to eat only where the desk does, and then asks for no cooking', () => {
    expect(labelLines(label)).toEqual([
      'DRIED · KEEP REFRIGERATED',
      'Not ready to eat: cook to 160°F (71°C) in the center.',
    ]);
    expect(labelLines({ ...label, state: 'ready to eat', cookTo: null })).toEqual([
      'READY TO EAT · KEEP REFRIGERATED',
    ]);
  });

  it('names allergens with the nut, what is not known, and the cure', () =>
    expect(
      labelLines({
        ...label,
        allergens: { contains: [{ allergen: 'soy', kinds: [] }, { allergen: 'tree-nuts', kinds: ['pecan'] }], unknown: ['Blend 7'] },
        cure: { nitrite: true, nitrate: false, accelerator: true },
      }).slice(2),
    ).toEqual(['Contains: Soy, Tree nuts (pecan).', 'Allergens not known: Blend 7.', 'Cured with nitrite, a cure accelerator.'])); // prettier-ignore

  it('names what an ingredient is made of, to any depth, and says what was not read', () =>
    expect(
      ingredientText({ name: 'Marinade', parts: [{ name: 'Water', parts: [] }, { name: 'Soy sauce', parts: [{ name: 'Wheat', parts: [] }] }, { name: 'Smoke', parts: 'unknown' }] }),
    ).toBe('Marinade (Water, Soy sauce (Wheat), Smoke (ingredients not known))')); // prettier-ignore
});
