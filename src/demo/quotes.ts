/** Quotes: some hunters ask before they bring an animal, others never come. */
import { addDays } from '../core/values/dates.ts';
import { GRAMS_PER } from '../core/values/units.ts';
import { inventAnimal, type DemoAnimal } from './invented/animal.ts';
import { momentAt } from './invented/calendar.ts';
import { drawing, type Draw } from './invented/draw.ts';
import { SEASONS, SHOP, type InventedSeason } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';
import { gramsOf } from './invented/typed.ts';

/** Share of quotes that are accepted. */
const TAKEN = 0.75;
/** Relative standard deviation of a hunter's guess of a weight. */
const GUESS_SD = 0.05;
const NEVER_CAME = 5000;

export function planQuotes(shop: Shop, season: InventedSeason, animals: readonly DemoAnimal[]): void {
  const draw = drawing(SEASONS.seed, season.season, 23);
  const every = animals.length / season.quotes;
  for (let i = 0; i < season.quotes; i++) {
    const animal = animals[Math.floor((i + draw.between(0, 0.9)) * every)];
    if (!animal) continue;
    const taken = draw.maybe(TAKEN);
    const quoted = taken
      ? animal
      : inventAnimal({ ...animal, number: NEVER_CAME + i }, (own) => shop.town.invent(own, season.season));
    const before = draw.whole(taken ? 1 : 0, 5);
    shop.events.schedule(momentAt(addDays(animal.receivedOn, -before), draw.between(8 * 60, 18 * 60)), () => {
      const { id } = save(shop, drawing(SEASONS.seed, season.season, 23, i), quoted);
      if (taken) animal.quoteId = id;
    });
  }
}

function save(
  { counter }: Shop,
  draw: Draw,
  { kind, sex, age, brought, parts, weights, person, order }: DemoAnimal,
) {
  const grams = gramsOf(weights.intake[0]?.typed ?? '1') * (1 + GUESS_SD * draw.normal());
  const guess = Math.max(5, Math.round(grams / GRAMS_PER.lb / 5) * 5);
  return counter.call('quotes.save', {
    species: kind.code,
    sex,
    age,
    brought,
    parts,
    stage: brought === 'whole' ? 'dressed' : brought === 'skinned' ? 'hanging' : 'parts',
    typed: `${guess} lb`,
    instructions: order.instructions,
    hunterId: person.id,
    hunterName: person.card.name,
    by: SHOP.staff[0]?.initials ?? '',
  });
}
