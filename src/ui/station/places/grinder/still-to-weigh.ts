/** What is left of a batch's plan once the station's own weights have arrived. Pure. */
import type { KeptEntry } from '../../../../bridge/client/station/outbox.ts';
import type { CallInput, PlanPart } from '../../../../bridge/contract.ts';
import { readingGrams } from '../../../../core/values/reading.ts';
import { loadsIn } from '../../../parts/index.ts';
import { waitingOf } from '../entries.ts';

interface ToGo {
  part: PlanPart;
  toGoGrams: number;
}

/**
 * The parts of a plan, less the weights that are on their way to the desk.
 * @param unit of a bare number
 */
export function stillToWeigh(
  parts: readonly ToGo[],
  entries: readonly KeptEntry[],
  batchId: number,
  unit: 'lb' | 'kg',
): ToGo[] {
  const waiting = waitingOf(entries, 'grinder.weighIn').filter(({ input }) => input.batchId === batchId);
  return parts.map(({ part, toGoGrams }) => {
    const coming = waiting.filter(({ input }) => isOf(input, part));
    const grams = coming.reduce((sum, { input }) => sum + net(input, unit), 0);
    return { part, toGoGrams: Math.max(0, toGoGrams - grams) };
  });
}

function isOf(input: CallInput<'grinder.weighIn'>, part: PlanPart): boolean {
  return part.fatLotId === null
    ? input.fatLotId == null && input.animalId === part.animalId
    : input.fatLotId === part.fatLotId;
}

function net({ typed, tareTyped }: CallInput<'grinder.weighIn'>, unit: 'lb' | 'kg'): number {
  const [gross, tare] = [typed, tareTyped ?? ''].map((text) => loadsIn(text, unit));
  return gross ? readingGrams(gross) - (tare ? readingGrams(tare) : 0) : 0;
}
