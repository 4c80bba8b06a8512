/** No answer that a window shows changes without the window being told to ask again. */
import { describe, expect, it } from 'vitest';
import type { AskName, CallInput, CallName } from '../../src/bridge/contract.ts';
import type { DeskChanged } from '../../src/desk/desk.ts';
import { READS, type Stale } from '../../src/desk/reads.ts';
import { busyShop, type BusyShop } from './busy-shop.ts';
import { loadOf } from './smokehouse/load-of.ts';
import { TRIED } from './tried-writes.ts';

type Question = { [N in AskName]: readonly [N, CallInput<N>] }[AskName];

const ELK = { species: 'elk' } as const;

/** Every question that a screen keeps open. */
async function questionsOf(shop: BusyShop): Promise<Question[]> {
  const { done, cutting, batchId } = shop;
  const { id: coolerId } = await shop.call('coolers.save', { name: 'Old room', places: 9 });
  const { id: lotId } = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '9' });
  const quoted = await TRIED['quotes.save']!(shop);
  const { id: quoteId } = await shop.call('quotes.save', quoted[1] as CallInput<'quotes.save'>);
  const { id: recipeId } = await shop.call('recipes.addReady', { code: 'sticks' });
  const { loadId, madeId } = await loadOf(shop);
  const probe = { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F', typed: '150' } as const;
  await shop.call('loads.reading', probe);
  const plan = { animals: [{ id: cutting }], fat: 'none', targetFat: null };
  return [
    ['shop.get', {}],
    ['shop.listBackups', {}],
    ['hunters.find', { text: 'b' }],
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
    ['import.list', {}],
  ];
}

async function answersOf(shop: BusyShop, questions: readonly Question[]): Promise<string[]> {
  const answers: string[] = [];
  for (const [name, input] of questions) answers.push(JSON.stringify(await shop.desk.call(name, input)));
  return answers;
}

function isTold(stale: Stale | null, [name, input]: Question): boolean {
  if (stale === null || stale.asks.includes(name)) return true;
  const { id, animalId = id } = input as { id?: number; animalId?: number };
  return (
    stale.ofAnimals.asks.includes(name) && animalId !== undefined && stale.ofAnimals.ids.includes(animalId)
  );
}

describe('after a call that writes', () => {
  const tried = (Object.keys(TRIED) as CallName[]).filter(
    (name) => !/^shop\.(openDemo|leaveDemo)/.test(name),
  );

  it.each(tried)('%s, every question whose answer changed is said to be out of date', async (name) => {
    const shop = await busyShop();
    const [call, input] = await TRIED[name]!(shop);
    const questions = await questionsOf(shop);
    const heard: DeskChanged[] = [];
    const before = await answersOf(shop, questions);
    shop.desk.onChanged((changed) => heard.push(changed));
    expect(await shop.desk.call(call, { ...input, by: 'TR' })).toMatchObject({ ok: true });
    const after = await answersOf(shop, questions);
    const untold = questions.filter(
      (question, i) => before[i] !== after[i] && !heard.some(({ stale }) => isTold(stale, question)),
    );
    expect(untold.map(([ask]) => ask)).toEqual([]);
    shop.desk.close();
  });

  it('asks every question that may be out of date', async () => {
    const shop = await busyShop();
    const questions = await questionsOf(shop);
    for (const [name, input] of questions)
      expect([name, await shop.desk.call(name, input)]).toMatchObject([name, { ok: true }]);
    const open = Object.entries(READS).filter(([, { all }]) => all.length > 0).map(([name]) => name); // prettier-ignore
    expect(
      [
        ...new Set<string>(questions.map(([name]) => name)),
        'quotes.calculate',
        'recipes.check',
        'season.drilldown',
      ].sort(),
    ).toEqual(open.sort());
    shop.desk.close();
  });
});
