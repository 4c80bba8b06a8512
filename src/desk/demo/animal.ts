/** One invented animal: who brings it, when and how, what is really in it and what is to become of it. */
import { addDays } from '../../core/dates.ts';
import type { SpeciesProfile } from '../../core/species.ts';
import type { Part } from '../../core/yield-tree.ts';
import { speciesOf } from '../resources.ts';
import type { Age, Brought, Instructions, Sex } from '../shapes.ts';
import { workday } from './calendar.ts';
import { drawing, type Draw } from './draw.ts';
import { broughtAs, sizeOf } from './carcass.ts';
import { ANIMALS, SEASONS, SHOP, type DamageSeen, type InventedSeason, type InventedSpecies } from './invention.ts';
import { orderOf, type Order } from './order.ts';
import type { Person } from './people.ts';
import { truthOf } from './truth.ts';
import { weightsOf, type Weights } from './weights.ts';

export interface DemoAnimal {
  season: InventedSeason;
  kind: InventedSpecies;
  profile: SpeciesProfile;
  draw: Draw;
  person: Person;
  sex: Sex;
  age: Age;
  brought: Brought;
  parts: { primal: string; count: number }[];
  damage: DamageSeen;
  week: number;
  receivedOn: string;
  cutOn: string;
  cutter: string;
  truth: Record<Part, number>;
  /** Fat of its trim, really. */
  trimFat: number;
  detailed: boolean;
  sampled: boolean;
  order: Order;
  weights: Weights;
  /** Set when it is taken in. */
  id: number;
  /** The quote that it was brought on. */
  quoteId: number | null;
}

export interface Arrival {
  season: InventedSeason;
  kind: InventedSpecies;
  number: number;
  week: number;
  receivedOn: string;
}

const CUTTERS = SHOP.staff.filter(({ cuts }) => cuts);
/** Days on the hook before the knife, by how it came; our own choice. */
const HANGS: Readonly<Record<Brought, readonly [number, number]>> = {
  whole: [3, 7],
  skinned: [3, 7],
  quarters: [1, 3],
  primals: [1, 2],
  boned: [0, 2],
};
const HANGS_LONGER = 0.05;

export function inventAnimal(arrival: Arrival, person: (draw: Draw) => Person): DemoAnimal {
  const { season, kind, number, week, receivedOn } = arrival;
  const draw = drawing(SEASONS.seed, season.season, number);
  const profile = speciesOf(kind.code);
  const sex = draw.maybe(kind.male) ? 'male' : 'female';
  const age = draw.pickShare<Age>(kind.ages);
  const brought = draw.pickShare(kind.brought);
  const damage = draw.pickShare<DamageSeen>({
    none: ANIMALS.damage.none.share,
    some: ANIMALS.damage.some.share,
    heavy: ANIMALS.damage.heavy.share,
  });
  const hanging = sizeOf(profile, kind, sex, age, draw);
  const { parts, baseGrams } = broughtAs(profile, brought, hanging, draw);
  const order = orderOf(season, draw);
  const cutter = draw.pick(CUTTERS);
  const savesFat = brought !== 'boned' && draw.maybe(kind.savesFat);
  const made = { profile, brought, age, damage, baseGrams, savesFat, cutterShift: cutter.takeHomeShift };
  const truth = truthOf({ ...made, cutsShare: order.instructions.cutsShare }, draw);
  const detailed = draw.maybe(season.detailed);
  const days = draw.whole(...HANGS[brought]) + (draw.maybe(HANGS_LONGER) ? 2 : 0);
  const sampled = season.mistakes && draw.maybe(kind.sampled);
  const waits = sampled && draw.maybe(order.waitsForResult);
  return {
    ...arrival,
    profile, draw, sex, age, brought, parts, damage, truth, detailed, sampled, order,
    person: person(draw),
    cutter: cutter.initials,
    cutOn: workday(addDays(receivedOn, waits ? 12 : days)),
    trimFat: Math.max(0.003, profile.trimFat.mean + 0.6 * profile.trimFat.sd * draw.normal()),
    weights: weightsOf({ profile, brought, baseGrams, truth, detailed, savesFat }, draw),
    week,
    id: 0,
    quoteId: null,
  }; // prettier-ignore
}

/** The order as the shop's form keeps it. */
export function instructionsOf(animal: DemoAnimal): Instructions {
  const { instructions } = animal.order;
  return animal.weights.ownFat > 0 && animal.season.mistakes && instructions.fat === 'none' && animal.draw.maybe(0)
    ? { ...instructions, fat: 'own' }
    : instructions;
}
