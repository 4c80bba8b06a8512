/** One invented animal: its hunter, arrival, true composition and orders. */
import { addDays } from '../../core/values/dates.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { Part } from '../../core/yield/tree.ts';
import { speciesOf } from '../../desk/supplied/resources.ts';
import type { Age, Brought, Sex } from '../../desk/contract/contract.ts';
import { workday } from './calendar.ts';
import { drawing, type Draw } from './draw.ts';
import { broughtAs, sizeOf } from './carcass.ts';
import {
  ANIMALS,
  ORDERS,
  SEASONS,
  SHOP,
  type DamageSeen,
  type InventedSeason,
  type InventedSpecies,
} from './invention.ts';
import { withJerky } from './jerky.ts';
import { orderOf, type Order } from './order.ts';
import type { Person } from './people.ts';
import { inTimeForSausage, leavesTrim, withoutSausage } from './sausage.ts';
import { truthOf } from './truth.ts';
import { weightsOf, type Weights } from './weights.ts';

export interface DemoAnimal {
  season: InventedSeason;
  /** Running number in its season; seeds its random streams. */
  number: number;
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
  /** True fat of its trim. */
  trimFat: number;
  detailed: boolean;
  /** Its trim is weighed at the table and again at the grinder. */
  weighsTrim: boolean;
  sampled: boolean;
  order: Order;
  weights: Weights;
  /** Both set at intake. */
  id: number;
  ticket: string;
  /** The quote that it came from. */
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
/** Days of hanging, by carcass condition; our own choice. */
const HANGS: Readonly<Record<Brought, readonly [number, number]>> = {
  whole: [4, 8],
  skinned: [4, 8],
  quarters: [1, 4],
  primals: [1, 2],
  boned: [1, 2],
};
/** Saved fat is a little over two thirds fat; this is a cautious figure. */
const OWN_FAT_RICH = 0.6;
const HANGS_LONGER = 0.04;
/** A separate random stream for orders by piece. */
const PIECES = 43;
/** Days of hanging when the hunter waits for the laboratory result. */
const WAITS = 11;

export function inventAnimal(arrival: Arrival, whose: (draw: Draw) => Person): DemoAnimal {
  const { season, kind, number, week, receivedOn } = arrival;
  const draw = drawing(SEASONS.seed, season.season, number);
  const person = whose(draw);
  const profile = speciesOf(kind.code);
  const sex: 'male' | 'female' = draw.maybe(kind.male) ? 'male' : 'female';
  const age = draw.pickShare(kind.ages);
  const brought = draw.pickShare(kind.brought);
  const damage = draw.pickShare<DamageSeen>({
    none: ANIMALS.damage.none.share,
    some: ANIMALS.damage.some.share,
    heavy: ANIMALS.damage.heavy.share,
  });
  const hanging = sizeOf(profile, kind, sex, age, draw);
  const { parts, baseGrams } = broughtAs(profile, brought, hanging, draw);
  const savesFat = brought !== 'boned' && draw.maybe(kind.savesFat);
  const order = orderOf(
    season,
    { profile, brought, parts, savesFat, pools: !person.card.refusesPooling },
    draw,
    drawing(SEASONS.seed, season.season, number, PIECES),
  );
  const cutter = draw.pick(CUTTERS);
  const made = { profile, brought, sex, age, damage, baseGrams, savesFat, cutterShift: cutter.takeHomeShift };
  const truth = truthOf({ ...made, cutsShare: order.instructions.cutsShare }, draw);
  if (order.instructions.fat === 'own' && !reaches(truth, ORDERS.ownFatTarget))
    order.instructions.targetFat = null;
  const detailed = draw.maybe(season.detailed);
  const weighsTrim = detailed || draw.maybe(season.throughBatch);
  const sampled = season.mistakes && draw.maybe(kind.sampled);
  const waits = sampled && brought !== 'boned' && draw.maybe(ORDERS.waitsForResult);
  const hangs = draw.whole(...HANGS[brought]) + (draw.maybe(HANGS_LONGER) ? 2 : 0);
  const days = waits ? WAITS : hangs;
  const cutOn = workday(addDays(receivedOn, days));
  // Held animals are never pooled, and only trim weighed at the table goes through a batch.
  const sausage =
    weighsTrim && !sampled && leavesTrim(order.sausageGrams, truth.trim) && inTimeForSausage(season, cutOn);
  const plain = withoutSausage(order);
  const jerky = weighsTrim && !sampled ? withJerky(plain, { season, number, trimGrams: truth.trim }) : plain;
  return {
    ...arrival,
    profile, draw, sex, age, brought, parts, damage, truth, detailed, weighsTrim, sampled, cutOn,
    person,
    cutter: cutter.initials,
    order: sausage && order.sausageGrams > 0 ? order : jerky,
    trimFat: Math.max(0.003, profile.trimFat.mean + 0.5 * profile.trimFat.sd * draw.normal()),
    weights: weightsOf({ profile, brought, baseGrams, days, truth, detailed, weighsTrim }, draw),
    week,
    id: 0,
    ticket: '',
    quoteId: null,
  }; // prettier-ignore
}

/** Whether the animal's own fat brings its trim to this share; if not, all of it is used and no target is set. */
function reaches({ trim, fatSaved }: Record<Part, number>, target: number): boolean {
  return fatSaved * OWN_FAT_RICH > target * (trim + fatSaved);
}
