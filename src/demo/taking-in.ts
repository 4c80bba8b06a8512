/** Intake of an invented animal, and the laboratory result of its sample. */
import { addDays } from '../core/values/dates.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { takeDeposit } from './billing.ts';
import { momentAt } from './invented/calendar.ts';
import { hangUp } from './cold-rooms.ts';
import { planPickUp } from './hand-over.ts';
import { ANIMALS } from './invented/invention.ts';
import { correctSlip, writeWeight } from './corrections.ts';
import { takePhotographs } from './photographs.ts';
import type { Shop } from './shop-day.ts';
import { bringBelongings, shareWithFriend } from './what-came.ts';

/** The first sample from this date on is positive. */
const POSITIVE_FROM = '2026-10-27';
/**
 * The first quarters received from this date on and cut later than that are entered only when cut, so that the
 * record book has a late entry.
 */
const LATE_FROM = '2026-10-01';
const LATE_BY = 3;
const [OPENS, CLOSES] = [8 * 60, 18 * 60];
/** Shortly before the demo's current time. */
const SO_FAR = 10 * 60 + 15;
/** Skinning takes about this long, in minutes. */
const SKINNING = [35, 110] as const;

export function planIntake(shop: Shop, animal: DemoAnimal, front: string): void {
  const { draw, receivedOn, weights } = animal;
  const minutes = draw.between(OPENS, receivedOn === shop.lastDay ? SO_FAR : CLOSES);
  shop.events.schedule(momentAt(writtenOn(shop, animal), minutes), () => takeIn(shop, animal, front));
  if (weights.hookAtIntake) {
    const [hook] = weights.hook;
    const skinned = momentAt(receivedOn, minutes + draw.between(...SKINNING));
    if (hook) shop.events.schedule(skinned, () => writeWeight(shop, animal, hook, front));
  }
}

function writtenOn(shop: Shop, animal: DemoAnimal): string {
  const { receivedOn, brought, cutOn } = animal;
  const late = addDays(receivedOn, LATE_BY);
  if (shop.late || brought !== 'quarters' || receivedOn < LATE_FROM || cutOn <= late) return receivedOn;
  shop.late = animal;
  return late;
}

function takeIn(shop: Shop, animal: DemoAnimal, by: string): void {
  const { counter } = shop;
  const { kind, person, draw, receivedOn, season, weights, sampled } = animal;
  const { lacks, conditions, damage, someoneElseBrings } = ANIMALS;
  const farm = kind.areas.length === 0;
  const [intake] = weights.intake;
  const slip = intake?.slip ? { ...intake, typed: intake.slip.typed } : intake;
  const killed = draw.whole(0, 2);
  const late = draw.maybe(0.3);
  const result = counter.confirm('intake.takeIn', {
    hunter: person.id === null ? person.card : { id: person.id },
    species: kind.code,
    sex: animal.brought === 'boned' && draw.maybe(0.4) ? 'unknown' : animal.sex,
    age: animal.brought === 'boned' ? 'unknown' : animal.age,
    brought: animal.brought,
    parts: animal.parts,
    origin: farm ? 'farm' : 'hunter',
    tag: farm || draw.maybe(lacks.tag) ? '' : `${kind.tag}${draw.whole(10_000, 99_999)}`,
    killDate: draw.maybe(lacks.killDate) ? null : addDays(receivedOn, -killed),
    killArea: farm || draw.maybe(lacks.killArea) ? '' : draw.pick(kind.areas),
    receivedOn,
    promisedOn: addDays(receivedOn, draw.whole(8, 12) + (late ? 4 : 0)),
    condition: draw.pick(conditions),
    damage: draw.pick(damage[animal.damage].notes),
    detail: animal.detailed ? 'detailed' : 'quick',
    ...(draw.maybe(someoneElseBrings) ? { deliverer: broughtBy(shop, animal) } : {}),
    sample: sampled ? `L${String(season.season % 100)}-${draw.whole(1000, 9999)}` : '',
    weights: slip ? [{ stage: 'received', typed: slip.typed }] : [],
    instructions: animal.order.instructions,
    ...(animal.quoteId === null ? {} : { quoteId: animal.quoteId }),
    by,
  });
  animal.id = result.id;
  animal.ticket = result.ticket;
  takePhotographs(shop, animal, by);
  const hunterId = counter.book.animals.get(result.id)?.hunter_id;
  if (hunterId !== undefined) person.id = hunterId;
  if (intake?.slip) {
    const first = counter.book.weighings.ofAnimal(result.id)[0];
    if (first) correctSlip(shop, animal, intake, first.id, by);
  }
  takeDeposit(shop, animal, by);
  bringBelongings(shop, animal, by);
  shareWithFriend(shop, animal, by);
  hangUp(shop, animal, by);
  if (sampled) planResult(shop, animal, by);
}

function broughtBy(shop: Shop, { draw, season }: DemoAnimal): { name: string; address: string } {
  const { name, address } = shop.town.invent(draw, season.season).card;
  return { name, address };
}

/** Results arrive in a week or two; the animal is held until then. */
function planResult(shop: Shop, animal: DemoAnimal, by: string): void {
  const positive = animal.receivedOn >= POSITIVE_FROM && !shop.positive;
  if (positive) shop.positive = animal;
  const days = positive ? 12 : animal.draw.whole(7, 12);
  shop.events.schedule(
    momentAt(addDays(animal.receivedOn, days), animal.draw.between(9 * 60, 16 * 60)),
    () => {
      shop.counter.call('animals.testResult', {
        id: animal.id,
        result: positive ? 'positive' : 'not detected',
        lab: 'State veterinary laboratory',
        note: positive ? 'Laboratory called; hunter told, waits for the agency' : '',
        by,
      });
      if (!positive) planPickUp(shop, animal);
    },
  );
}
