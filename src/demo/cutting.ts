/** The cutting day of an invented animal: its totes are weighed one by one, then its whole cuts are packed. */
import { GRAMS_PER } from '../core/values/units.ts';
import { WHOLE_CUTS_PRODUCT } from '../trade/product.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { piecesWeighed } from './breaking.ts';
import { momentAt } from './invented/calendar.ts';
import { freezerPlace } from './freezer.ts';
import { ready } from './hand-over.ts';
import { ORDERS } from './invented/invention.ts';
import { writeWeight } from './corrections.ts';
import type { Shop } from './shop-day.ts';
import { planGrind } from './to-grinder.ts';
import { typedOf } from './invented/typed.ts';

const DAY = [8 * 60 + 10, 16 * 60] as const;
/** The shop closes early on Saturday: all tables start in the morning. */
const LAST_DAY = [8 * 60 + 30, 10 * 60 + 20] as const;
/** Minutes of work until the first tote is full. */
const FIRST_TOTE = 20;
/** Minutes between pieces at the block; all are weighed before the first tote is full. */
const NEXT_PIECE = 1.5;
const STILL_AT_WORK = 9 * 60 + 30;
const STEAK_PACK_GRAMS = 1.25 * GRAMS_PER.lb;
/** Residue on knives, board and paper between table and package, as a share. */
const LEFT_BEHIND = [0.002, 0.01] as const;

export function planCutting(shop: Shop, animal: DemoAnimal): void {
  const { draw, cutOn, weights, cutter } = animal;
  let minutes = draw.between(...(cutOn === shop.lastDay ? LAST_DAY : DAY));
  // A slip of the last day must be visible, so its table is still at work.
  if (cutOn === shop.lastDay && weights.table.some(({ slip }) => slip)) minutes = STILL_AT_WORK;
  const next = (wait: number, happens: () => void) => {
    minutes += wait;
    shop.events.schedule(momentAt(cutOn, minutes), happens);
  };
  if (!weights.hookAtIntake)
    for (const weight of weights.hook) next(0, () => writeWeight(shop, animal, weight, cutter));
  next(2, () => void shop.counter.call('animals.setStage', { id: animal.id, stage: 'cutting', by: cutter }));
  for (const [i, piece] of piecesWeighed(animal).entries())
    shop.events.schedule(momentAt(cutOn, minutes + 1 + i * NEXT_PIECE), () =>
      weighPiece(shop, animal, piece),
    );
  for (const part of weights.none)
    shop.events.schedule(momentAt(cutOn, minutes + FIRST_TOTE / 2), () => {
      shop.counter.call('table.stateNone', { animalId: animal.id, part, by: cutter });
    });
  for (const [i, weight] of weights.table.entries())
    next(i === 0 ? FIRST_TOTE : draw.between(6, 16), () => writeWeight(shop, animal, weight, cutter));
  next(draw.between(25, 40), () => pack(shop, animal));
}

function weighPiece(
  { counter }: Shop,
  { id, cutter: by }: DemoAnimal,
  { primal, typed }: { primal: string; typed: string },
): void {
  counter.call('table.weigh', {
    animalId: id,
    stage: 'primal',
    part: 'primal',
    primal,
    typed,
    confirmed: true,
    by,
  });
}

function pack(shop: Shop, animal: DemoAnimal): void {
  const { id, cutter: by, truth, draw, weighsTrim, order } = animal;
  shop.counter.call('animals.setStage', { id, stage: 'packing', by });
  const few = truth.wholeCuts < 25 * GRAMS_PER.lb;
  const cuts = few ? [{ product: WHOLE_CUTS_PRODUCT, share: 1 }] : ORDERS.cuts;
  for (const { product, share } of cuts)
    packOne(shop, animal, { product, grams: truth.wholeCuts * share, packageGrams: STEAK_PACK_GRAMS });
  if (!weighsTrim) {
    const { grindProduct, packageGrams } = order.instructions;
    packOne(shop, animal, { product: grindProduct, grams: truth.trim, packageGrams });
  }
  if (weighsTrim) planGrind(shop, animal);
  else shop.scheduleIn(draw.between(10, 90), () => ready(shop, animal));
}

function packOne(
  shop: Shop,
  animal: DemoAnimal,
  packed: { product: string; grams: number; packageGrams: number },
): void {
  const { id, draw, cutter: by } = animal;
  const grams = packed.grams * (1 - draw.between(...LEFT_BEHIND));
  shop.counter.confirm('table.weigh', {
    animalId: id,
    stage: 'packed',
    part: 'package',
    product: packed.product,
    count: Math.max(1, Math.round(grams / packed.packageGrams)),
    typed: typedOf(grams),
    place: freezerPlace(animal),
    by,
  });
}
