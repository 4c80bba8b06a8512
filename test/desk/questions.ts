/** The questions that screens keep open, for tests that try them all. */
import type { AskName, CallInput } from '../../src/bridge/contract.ts';
import type { BusyShop } from './busy-shop.ts';

export type Question = { [N in AskName]: readonly [N, CallInput<N>] }[AskName];

const ELK = { species: 'elk' } as const;

/** Every question that a screen keeps open. */
export function questionsOf(shop: BusyShop): Question[] {
  const { done, cutting, batchId, coolerId, lotId, quoteId, recipeId, madeId, loadId, digest, slip } = shop;
  const plan = { animals: [{ id: cutting }], fat: 'none', targetFat: null };
  return [
    ['shop.get', {}],
    ['shop.listBackups', {}],
    ['stations.get', {}],
    ['hunters.find', { text: 'b' }],
    ['drafts.begin', { language: 'es-MX' }],
    ['drafts.list', {}],
    ['drafts.getSigned', { animalId: 1 }],
    ['slips.find', { code: slip }],
    ['rail.get', {}],
    ['coolers.list', {}],
    ['coolers.listLogs', { coolerId }],
    ['coolers.getRecord', { coolerId, from: '2026-10-01', to: '2026-10-31' }],
    ['animals.get', { id: done }],
    ['animals.get', { id: cutting }],
    ['animals.find', { text: '26' }],
    ['animals.getHistory', { id: done }],
    ['animals.getHistory', { id: cutting }],
    ['animals.getDropOff', { animalId: cutting }],
    ['animals.getLastOrders', { hunterId: 1, species: 'elk' }],
    ['grinder.get', {}],
    ['grinder.getBatch', { id: batchId }],
    ['grinder.plan', plan],
    ['fat.listLots', { usedUp: true }],
    ['fat.listMovements', { lotId }],
    ['fat.getNeeds', {}],
    ['recipes.list', {}],
    ['recipes.get', { id: recipeId }],
    ['made.list', {}],
    ['made.get', { id: madeId }],
    ['made.plan', { id: madeId }],
    ['made.label', { id: madeId }],
    ['made.forecast', { recipeId }],
    ['made.losses', {}],
    ['loads.list', {}],
    ['loads.get', { id: loadId }],
    ['loads.readings', { logId: 1 }],
    ['quotes.list', {}],
    ['quotes.get', { id: quoteId }],
    ['bills.get', { animalId: done }],
    ['bills.get', { animalId: cutting }],
    ['bills.getHours', { animalId: cutting }],
    ['belongings.list', { animalId: cutting }],
    ['photos.list', { animalId: cutting }],
    ['photos.read', { digest }],
    ['donations.list', {}],
    ['till.get', {}],
    ['till.listOwed', {}],
    ['till.getStatement', { hunterId: 1 }],
    ['prices.get', {}],
    ['pickup.get', {}],
    ['shelf.get', {}],
    ['season.getChoices', {}],
    ['season.yields', {}],
    ['season.yields', ELK],
    ['season.pounds', {}],
    ['season.compare', { a: ELK, b: { species: 'moose' } }],
    ['season.flow', {}],
    ['season.fat', {}],
    ['season.check', {}],
    ['costing.get', {}],
    ['records.list', {}],
    ['records.check', {}],
    ['lessons.get', {}],
    ['import.list', {}],
  ];
}
