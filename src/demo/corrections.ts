/** Enters a weight, with its planted slip and the correction. */
import type { DemoAnimal } from './invented/animal.ts';
import type { Shop } from './shop-day.ts';
import type { PlannedWeight } from './invented/weights.ts';

/** Minutes until a slip is noticed, and between two weighings of one tote. */
const NOTICED = 6;
const AGAIN = 0.8;

export function writeWeight(shop: Shop, animal: DemoAnimal, weight: PlannedWeight, by: string): void {
  const { stage, part, slip } = weight;
  const typed = slip?.typed ?? weight.typed;
  // Confirmed in advance: the plausibility check needs every group's ranges, which takes longer than everything
  // else.
  const { weighingId } = shop.counter.call('table.weigh', {
    animalId: animal.id,
    stage,
    part,
    typed,
    confirmed: true,
    by,
  });
  if (slip) correctSlip(shop, animal, weight, weighingId, by);
}

/** Corrects the slip if the shop noticed it. */
export function correctSlip(
  shop: Shop,
  animal: DemoAnimal,
  weight: PlannedWeight,
  weighingId: number,
  by: string,
): void {
  const { slip, stage, part, typed } = weight;
  if (!slip) return;
  const { reason } = slip;
  const { counter } = shop;
  if (slip.kind !== 'weighed twice') {
    if (reason !== null)
      shop.scheduleIn(NOTICED, () => {
        counter.call('table.correct', { weighingId, typed, reason, confirmed: true, by });
      });
    return;
  }
  shop.scheduleIn(AGAIN, () => {
    const again = counter.call('table.weigh', {
      animalId: animal.id,
      stage,
      part,
      typed,
      confirmed: true,
      by,
    });
    if (reason !== null)
      shop.scheduleIn(NOTICED, () => {
        counter.call('table.void', { weighingId: again.weighingId, reason, by });
      });
  });
}
