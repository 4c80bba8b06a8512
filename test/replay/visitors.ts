/** The hunters of an opening day and what they bring: invented, and the same for the same seed. */
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import { GRAMS_PER } from '../../src/core/values/units.ts';
import { SPECIES } from '../../src/desk/supplied/resources.ts';
import type { Brought, CutPart } from '../../src/desk/contract/contract.ts';

/** One animal of the day: who brought it, what it weighs, and what its parts will weigh, in pounds as a scale shows them. */
export interface Visitor {
  hunter: { name: string; phone: string };
  species: string;
  speciesName: string;
  sex: 'male' | 'female';
  brought: Brought;
  parts: { primal: string; count: number }[];
  tag: string;
  /** A sample was sent away: the meat waits for the result. */
  sample: string;
  receivedLb: string;
  /** Null where no carcass hangs. */
  hangingLb: string | null;
  partsLb: Readonly<Record<CutPart, string | null>>;
  /** What the hunter wants ground in. */
  wants: 'no fat' | 'pork fat' | 'sausage';
}

const FIRST = ['Ada', 'Ben', 'Cleo', 'Dov', 'Edna', 'Finn', 'Greta', 'Hal', 'Ines', 'Jory'];
const LAST = ['Alder', 'Birch', 'Cedar', 'Dogwood', 'Elder', 'Fir', 'Gale', 'Hazel', 'Ivy', 'Juniper'];
/** Shares of an opening day; our own invention. */
const KINDS = [
  { code: 'white-tail', share: 0.55 },
  { code: 'mule-deer', share: 0.25 },
  { code: 'elk', share: 0.15 },
  { code: 'pronghorn', share: 0.05 },
] as const;
const BROUGHT = [
  { brought: 'whole', share: 0.5 },
  { brought: 'skinned', share: 0.4 },
  { brought: 'quarters', share: 0.06 },
  { brought: 'boned', share: 0.04 },
] as const;
const WANTS = ['no fat', 'pork fat', 'sausage'] as const;
const SAMPLED = 0.08;
/** Scale step, in pounds. */
const STEP = 0.05;
/** Shares of the base that go to each part; near what deer give, with a spread of each animal's own. */
const SHARES: Readonly<Record<CutPart, number>> = {
  'whole cuts': 0.24,
  trim: 0.3,
  'fat saved': 0,
  sinew: 0.11,
  bone: 0.22,
  damage: 0.06,
};

const PARTS: readonly CutPart[] = ['whole cuts', 'trim', 'fat saved', 'sinew', 'bone', 'damage'];
const MAX_OF_BASE = 0.95;
/** What the cooler takes of a skinned carcass until it is weighed again on its fifth day. */
const SHRINK = 0.02;

/** `count` animals from one seed. */
export function inventVisitors(count: number, seed: number): Visitor[] {
  const chance = seededRandom(seed);
  return Array.from({ length: count }, (_, i) => inventVisitor(chance, i));
}

function inventVisitor(chance: RandomGenerator, i: number): Visitor {
  const code = pick(KINDS, chance).code;
  const profile = SPECIES.find((one) => one.code === code);
  if (!profile) throw new Error(`No species ${code}`);
  const brought = pick(BROUGHT, chance).brought;
  const { typical } = profile.hangingGrams;
  const hanging = (typical * Math.exp(0.15 * chance.normal())) / GRAMS_PER.lb;
  const base = brought === 'quarters' ? hanging * 0.6 : brought === 'boned' ? hanging * 0.15 : hanging;
  const received = brought === 'whole' ? base / profile.ratios.dressedToHanging.mean : base;
  const boned = brought === 'boned';
  const shares: Record<CutPart, number> = boned
    ? { 'whole cuts': 0, trim: 0.88, 'fat saved': 0, sinew: 0.08, bone: 0, damage: 0 }
    : SHARES;
  const drawn = PARTS.map((name) => shares[name] * (1 + 0.06 * chance.normal()));
  // The cooler and the saw take something of every animal: its parts never weigh as much as it did.
  const most =
    MAX_OF_BASE /
    Math.max(
      MAX_OF_BASE,
      drawn.reduce((sum, share) => sum + share, 0),
    );
  const part = (name: CutPart): string | null => {
    const share = (drawn[PARTS.indexOf(name)] ?? 0) * most;
    return share > 0 ? lb(base * share) : null;
  };
  return {
    hunter: {
      name: `${FIRST[i % FIRST.length]} ${LAST[Math.floor(i / FIRST.length) % LAST.length]}`,
      phone: `307-555-${String(1000 + i)}`,
    },
    species: code,
    speciesName: profile.name,
    sex: chance.uniform() < 0.6 ? 'male' : 'female',
    brought,
    parts:
      brought === 'quarters'
        ? [
            { primal: 'shoulder', count: 2 },
            { primal: 'haunch', count: 2 },
          ]
        : boned
          ? [{ primal: 'shoulder', count: 1 }]
          : [],
    tag: `T-${String(40_000 + i)}`,
    sample: chance.uniform() < SAMPLED ? `L-${String(700 + i)}` : '',
    receivedLb: lb(received),
    hangingLb: brought === 'whole' ? lb(base) : brought === 'skinned' ? lb(base * (1 - SHRINK)) : null,
    partsLb: {
      'whole cuts': part('whole cuts'),
      trim: part('trim'),
      'fat saved': part('fat saved'),
      sinew: part('sinew'),
      bone: part('bone'),
      damage: part('damage'),
    },
    wants: WANTS[Math.floor(chance.uniform() * WANTS.length)] ?? 'no fat',
  };
}

/** Pounds to the scale's step, as they are typed. @example lb(18.63) // '18.65' */
export function lb(pounds: number): string {
  return (Math.max(1, Math.round(pounds / STEP)) * STEP).toFixed(2);
}

function pick<T extends { share: number }>(kinds: readonly T[], chance: RandomGenerator): T {
  let left = chance.uniform();
  for (const kind of kinds) {
    left -= kind.share;
    if (left < 0) return kind;
  }
  const last = kinds.at(-1);
  if (!last) throw new Error('Nothing to pick from');
  return last;
}
