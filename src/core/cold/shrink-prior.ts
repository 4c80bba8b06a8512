/** The prior of the loss on the hook, for a shop without animals weighed twice. */
import { ValidationError } from '../values/validation-error.ts';
import type { Brought, Legs, Sex, SpeciesProfile } from '../species/species.ts';
import { dressedToHanging } from '../yield/convert.ts';

/** A rate with its relative standard deviations between shops (coolers differ) and between animals. */
export interface Rate {
  readonly mean: number;
  readonly shopSd: number;
  readonly animalSd: number;
  readonly source: string;
}

/**
 * Loss of the first day, by chilling. It hardly depends on size (beef sides of 600 lb, fallow deer and lambs lose
 * about the same), so one figure serves all. A carcass may arrive cold or wet: hence the standard deviations, an
 * assumption.
 */
export const FIRST_DAY: Rate = {
  mean: 0.017,
  shopSd: 0.35,
  animalSd: 0.35,
  source:
    'fallow deer 1.35-2.03 % warm to cold: Fitzhenry et al., Afr. J. Wildl. Res. 49:100-110, 2019, doi 10.3957/056.049.0100 ' +
    '(computed from its weights); beef 1-2 % overnight: Kansas State AES Report of Progress 557, 1972; lamb 2.2 % in 24 h: ' +
    'James & James, Meat Refrigeration, 2002, chapter 5',
};

/**
 * Loss on each later day of a skinned carcass of `DRYING_GRAMS`. The standard deviations are assumptions: none was
 * published.
 */
export const DRYING: Rate = {
  mean: 0.0027,
  shopSd: 0.5,
  animalSd: 0.35,
  source:
    'beef 4-6 % over 14 days on the rail: Purdue Extension (Lemenager), "Amount of freezer beef expected from a carcass", ' +
    'less the first day',
};
/** A carcass of 660 lb, about the weight of the beef in that source. */
const DRYING_GRAMS = 300_000;

/** Drying rate relative to a skinned carcass, by how the animal came, with its relative standard deviation. */
const DRYING_FACTORS: Readonly<Record<Brought, { factor: number; sd: number; source: string }>> = {
  whole: { factor: 0.4, sd: 0.5, source: 'assumption: the hide covers nearly all of it' },
  skinned: { factor: 1, sd: 0.25, source: 'what the rates are of' },
  quarters: {
    factor: 1.75,
    sd: 0.35,
    source:
      'uncovered beef cuts lose 6.0-8.9 % in 14 days where sides lose 4-6 %: Dry aging of beef, J. Anim. Sci. Technol. 58:20, ' +
      '2016, doi 10.1186/s40781-016-0101-9, table 1; a quarter has 4^(1/3) = 1.6 times the surface of its mass',
  },
  primals: { factor: 2, sd: 0.4, source: 'assumption: as quarters, in smaller pieces' },
  boned: { factor: 1, sd: 0.6, source: 'assumption: drips in its container more than it dries' },
};

/** The state of a carcass, or its pieces, between two weighings. */
export interface HangingInterval {
  readonly species: string;
  readonly brought: Brought;
  /** Only for an animal with its hide on. */
  readonly legs?: Legs;
  readonly sex?: Sex;
  /** Received weight, g. */
  readonly receivedGrams: number;
  /** Whole days from receipt to the hanging weight. */
  readonly days: number;
}

/**
 * One term of the log loss −ln(hanging / received): its mean, the standard deviation `shopSd` of the shop's effect named
 * `effect`, and that between animals.
 */
export interface LossTerm {
  readonly effect: string;
  readonly mean: number;
  readonly shopSd: number;
  readonly animalSd: number;
}

/**
 * The terms of the loss between receipt and hanging weight: hide and head where it arrived with its hide on, the
 * first day, and drying on each later day. A small body has more surface for its mass and dries faster, by the cube
 * root of its mass. Drying has two effects: the cooler's, which all animals share, and that of species and carcass
 * condition.
 * @throws ValidationError `hanging.days`, `hanging.received`
 */
export function lossTerms(
  hung: HangingInterval,
  { ratios, hangingGrams }: Pick<SpeciesProfile, 'ratios' | 'hangingGrams'>,
): LossTerm[] {
  const { species, brought, receivedGrams, days } = hung;
  if (!Number.isInteger(days) || days < 0) throw new ValidationError('hanging.days', 'days');
  if (!(receivedGrams > 0)) throw new ValidationError('hanging.received', 'receivedGrams');
  const inHide = brought === 'whole';
  const dryingFactor = DRYING_FACTORS[brought];
  const dressed = dressedToHanging(ratios, hung);
  const remaining = inHide ? dressed.mean : 1;
  // Limited to the species' usual weights, so that a slip in this weight moves its own expectation little.
  const body = Math.min(Math.max(receivedGrams * remaining, hangingGrams.low), hangingGrams.high);
  // Both weights may be from one afternoon, or from an evening and the next morning.
  const firstDay = (days === 0 ? 0.5 : 1) * FIRST_DAY.mean * (inHide ? dryingFactor.factor : 1);
  const drying = Math.max(0, days - 1) * DRYING.mean * dryingFactor.factor * Math.cbrt(DRYING_GRAMS / body);
  const chill = { shopSd: FIRST_DAY.shopSd * firstDay, animalSd: FIRST_DAY.animalSd * firstDay };
  const terms: LossTerm[] = [{ effect: 'first day', mean: firstDay, ...chill }];
  if (drying > 0)
    terms.push(
      { effect: 'cooler', mean: drying, shopSd: DRYING.shopSd * drying, animalSd: DRYING.animalSd * drying },
      { effect: `${species} ${brought}`, mean: 0, shopSd: dryingFactor.sd * drying, animalSd: 0 },
    );
  if (inHide) {
    // The published SD covers shops and animals together: half of its variance each.
    const each = dressed.sd / remaining / Math.SQRT2;
    terms.push({ effect: `hide of ${species}`, mean: -Math.log(remaining), shopSd: each, animalSd: each });
  }
  return terms;
}
