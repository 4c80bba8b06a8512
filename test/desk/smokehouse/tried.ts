/** For every call of the smokehouse that writes, a shop that is ready for it and an input that it takes. */
import type { CallName } from '../../../src/bridge/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';
import type { Prepare } from '../tried-writes.ts';
import { uploadFile } from '../import/import-file.ts';
import { GOOD, importLog, loadOf, logFile, readingsAlong } from './load-of.ts';
import { newName, opened, rawBatch, stuffed, summerSausage, trimOf, weighedOut } from './made-of.ts';
import { addIngredient, PLAIN, SPICE } from '../recipes/recipe-of.ts';

const ingredient = (shop: FreshDesk): Promise<number> =>
  addIngredient(shop, { ...SPICE, name: newName('Fennel') });
const recipe = async (shop: FreshDesk): Promise<number> =>
  (
    await shop.call('recipes.save', {
      name: newName('House grind'),
      product: 'House Grind',
      body: {
        ...PLAIN,
        additions: [
          { ingredientId: await ingredient(shop), role: 'seasoning', typed: '4', unit: 'oz', per: '100 lb', into: 'meat' },
        ],
        casing: { name: 'Hog', diameterMm: 33, filledMm: null, holdsTyped: '4 oz' },
        heat: { level: 'log65', cooling: 'option-1', steps: [{ what: 'Smoke', ovenF: 150, humidity: null, minutes: 60, untilF: null }] },
      },
    })
  ).id; // prettier-ignore

const readingOf = async (shop: FreshDesk): Promise<number> => {
  const { loadId } = await loadOf(shop);
  const { id: logId } = await importLog(shop, loadId, logFile(readingsAlong(GOOD, 5)));
  return (await shop.call('loads.readings', { logId })).readings[3]?.id ?? 0;
};

export const TRIED_SMOKEHOUSE: Partial<Record<CallName, Prepare>> = {
  'recipes.save': async (shop) => {
    const { body } = await shop.call('recipes.get', { id: await recipe(shop) });
    return [
      'recipes.save',
      { name: newName('House salami'), product: 'Salami', body, reason: 'for the fair', id: null },
    ];
  },
  'recipes.archive': async (shop) => ['recipes.archive', { id: await recipe(shop) }],
  'recipes.restore': async (shop) => {
    const id = await recipe(shop);
    await shop.call('recipes.archive', { id });
    return ['recipes.restore', { id }];
  },
  'recipes.addReady': () => ['recipes.addReady', { code: 'bologna' }],
  'recipes.saveIngredient': () => [
    'recipes.saveIngredient',
    { ingredient: { ...SPICE, name: newName('Fennel'), allergens: [{ allergen: 'tree-nuts', kind: 'almond' }] } },
  ], // prettier-ignore
  'recipes.archiveIngredient': async (shop) => ['recipes.archiveIngredient', { id: await ingredient(shop) }],
  'recipes.restoreIngredient': async (shop) => {
    const id = await ingredient(shop);
    await shop.call('recipes.archiveIngredient', { id });
    return ['recipes.restoreIngredient', { id }];
  },
  'made.open': async (shop) => {
    const { recipeId } = await summerSausage(shop);
    return ['made.open', { recipeId, animals: [await trimOf(shop, '40')] }];
  },
  'made.start': async (shop) => {
    const { recipeId } = await summerSausage(shop);
    const animalId = await trimOf(shop, '40');
    const { id } = await opened(shop, recipeId, { [animalId]: '40' });
    return ['made.start', { id, portionTyped: '30', smallStepGrams: 0.5 }];
  },
  'made.weigh': async (shop) => {
    const { id, salt } = await weighedOut(shop);
    return ['made.weigh', { id, ingredientId: salt, typed: '2', lot: 'B-1' }];
  },
  'made.voidWeighed': async (shop) => {
    const { id } = await weighedOut(shop);
    const [first] = (await shop.call('made.get', { id })).weighed;
    return ['made.voidWeighed', { weighedId: first?.id ?? 0, reason: 'wrong bowl' }];
  },
  'made.stage': async (shop) => {
    const { id } = await stuffed(shop);
    return ['made.stage', { id, stage: 'cooked', typed: '84', pieces: 30 }];
  },
  'made.voidStage': async (shop) => {
    const { id } = await stuffed(shop);
    const [first] = (await shop.call('made.get', { id })).stages;
    return ['made.voidStage', { stageId: first?.id ?? 0, reason: 'wrong truck' }];
  },
  'made.pack': async (shop) => {
    const { id } = await stuffed(shop);
    return ['made.pack', { id, count: 80, typed: '83.5', tareTyped: '1', place: 'F2', reason: 'as weighed' }];
  },
  'made.analyse': async (shop) => {
    const { id } = await stuffed(shop);
    return ['made.analyse', { id, what: 'ph', typed: '5.1', method: 'meter' }];
  },
  'made.voidAnalysis': async (shop) => {
    const { id } = await stuffed(shop);
    const { id: analysisId } = await shop.call('made.analyse', { id, what: 'ph', typed: '5.1' });
    return ['made.voidAnalysis', { analysisId, reason: 'not calibrated' }];
  },
  'made.void': async (shop) => ['made.void', { id: (await rawBatch(shop)).id, reason: 'opened twice' }],
  'loads.open': async (shop) => ['loads.open', { oven: 'Small one', madeIds: [(await stuffed(shop)).id] }],
  'loads.add': async (shop) => {
    const { loadId } = await loadOf(shop);
    return ['loads.add', { id: loadId, madeId: (await stuffed(shop)).id }];
  },
  'loads.remove': async (shop) => {
    const { loadId } = await loadOf(shop);
    const [first] = (await shop.call('loads.get', { id: loadId })).batches;
    return ['loads.remove', { id: loadId, loadBatchId: first?.loadBatchId ?? 0, reason: 'other truck' }];
  },
  'loads.record': async (shop) => {
    const { loadId } = await loadOf(shop);
    const { record } = await shop.call('loads.get', { id: loadId });
    return ['loads.record', { id: loadId, record: { ...record, note: 'door stood open' } }];
  },
  'loads.close': async (shop) => ['loads.close', { id: (await loadOf(shop)).loadId }],
  'loads.reopen': async (shop) => {
    const { loadId } = await loadOf(shop);
    await shop.call('loads.close', { id: loadId });
    return ['loads.reopen', { id: loadId, reason: 'another probe' }];
  },
  'loads.importLog': async (shop) => {
    const { loadId } = await loadOf(shop);
    const upload = await uploadFile(shop, logFile(readingsAlong(GOOD, 5)));
    return ['loads.importLog', { id: loadId, upload, probe: 'P1', phase: 'both' }];
  },
  'loads.reading': async (shop) => {
    const { loadId } = await loadOf(shop);
    const earlier = { on: '2026-10-10', time: '8:30' };
    return [
      'loads.reading',
      { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F', typed: '150.5', earlier },
    ];
  },
  'loads.voidLog': async (shop) => {
    const { loadId } = await loadOf(shop);
    const { id: logId } = await importLog(shop, loadId, logFile(readingsAlong(GOOD, 5)));
    return ['loads.voidLog', { logId, reason: 'of another load' }];
  },
  'loads.exclude': async (shop) => [
    'loads.exclude',
    { readingId: await readingOf(shop), reason: 'pulled out' },
  ],
  'loads.include': async (shop) => {
    const readingId = await readingOf(shop);
    await shop.call('loads.exclude', { readingId, reason: 'pulled out' });
    return ['loads.include', { readingId, reason: 'it was right' }];
  },
  'loads.judge': async (shop) => {
    const { loadId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    return ['loads.judge', { id: loadId }];
  },
  'loads.decide': async (shop) => [
    'loads.decide',
    {
      loadId: (await loadOf(shop)).loadId,
      decided: 'hold',
      decidedBy: 'Mika Koski',
      note: 'the logger stopped',
    },
  ],
  'loads.voidDecision': async (shop) => {
    const { madeId } = await loadOf(shop);
    const told = { decided: 'hold', decidedBy: 'Mika Koski', note: 'fell down' } as const;
    return [
      'loads.voidDecision',
      { id: (await shop.call('loads.decide', { madeId, ...told })).id, reason: 'it is fine' },
    ];
  },
};
