/** A batch made by a recipe and its load in the oven, with a mark in every free text. */
import type { FreshDesk } from '../fresh-desk.ts';
import { cut } from '../fresh-desk.ts';
import { CASING } from '../smokehouse/load-of.ts';
import { opened, summerSausage } from '../smokehouse/made-of.ts';

/** Fills every text of these tables for an animal of the hunter. It leaves the shop again. */
export async function whatIsSmoked(shop: FreshDesk, hunterId: number, mark: string): Promise<void> {
  const { id: animalId } = await shop.call('intake.takeIn', {
    hunter: { id: hunterId }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
    weights: [{ stage: 'hanging', typed: '400' }],
  }); // prettier-ignore
  await cut(shop, animalId, { trim: '100' });
  const { recipeId, pink, salt } = await summerSausage(shop, { casing: CASING });
  const { id } = await opened(shop, recipeId, { [animalId]: '100' });
  await shop.call('made.start', { id });
  const weigh = () => shop.call('made.weigh', { id, ingredientId: salt, typed: '794' });
  const { id: weighedId } = await weigh();
  await shop.call('made.voidWeighed', { weighedId, reason: `${mark} wants less` });
  await weigh();
  await shop.call('made.weigh', { id, ingredientId: pink, typed: '113', lot: 'A-7' });
  const stuff = () => shop.call('made.stage', { id, stage: 'stuffed', typed: '101.5' });
  const { id: stageId } = await stuff();
  await shop.call('made.voidStage', { stageId, reason: `${mark} came by` });
  await stuff();
  const ph = { id, what: 'ph', typed: '5.1', method: `${mark} meter` } as const;
  const { id: analysisId } = await shop.call('made.analyse', ph);
  await shop.call('made.voidAnalysis', { analysisId, reason: `${mark} lent it` });

  const { id: loadId } = await shop.call('loads.open', { oven: 'Big one', madeIds: [id] });
  const { record } = await shop.call('loads.get', { id: loadId });
  await shop.call('loads.record', { id: loadId, record: { ...record, note: `${mark} on the top rack` } });
  const read = { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F', typed: '150' } as const;
  await shop.call('loads.reading', read);
  const [log] = (await shop.call('loads.get', { id: loadId })).logs;
  const logId = log?.id ?? 0;
  const [reading] = (await shop.call('loads.readings', { logId })).readings;
  const readingId = reading?.id ?? 0;
  await shop.call('loads.exclude', { readingId, reason: `${mark} pulled it out` });
  await shop.call('loads.include', { readingId, reason: `${mark} did not` });
  await shop.call('loads.voidLog', { logId, reason: `${mark} has another` });
  const told = { decided: 'hold', decidedBy: 'Mika Koski', note: `${mark} was told` } as const;
  for (const of of [{ loadId }, { madeId: id }]) {
    const { id: decision } = await shop.call('loads.decide', { ...of, ...told });
    await shop.call('loads.voidDecision', { id: decision, reason: `${mark} was not` });
  }
  await shop.call('loads.close', { id: loadId });
  await shop.call('loads.reopen', { id: loadId, reason: `${mark} asked` });
  const [batch] = (await shop.call('loads.get', { id: loadId })).batches;
  const loadBatchId = batch?.loadBatchId ?? 0;
  await shop.call('loads.remove', { id: loadId, loadBatchId, reason: `${mark} comes later` });
  await shop.call('made.void', { id, reason: `${mark} wants steaks` });
  await shop.call('animals.dispose', { id: animalId, what: 'all', how: 'pit', reason: 'spoiled' });
}
