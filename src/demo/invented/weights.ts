/** The weights that the shop enters for an animal, and the typed text of each. */
import { learnShrink } from '../../core/cold/shrink-model.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { Part } from '../../core/yield/tree.ts';
import type { Brought, CutPart, NonePart } from '../../desk/contract/contract.ts';
import type { Draw } from './draw.ts';
import type { SlipKind } from './invention.ts';
import { typedOf, typedSomehow } from './typed.ts';

export interface PlannedWeight {
  stage: 'received' | 'hanging' | 'cut';
  part: 'carcass' | CutPart;
  typed: string;
  slip?: PlannedSlip;
}

interface PlannedSlip {
  kind: SlipKind;
  /** The first entry. */
  typed: string;
  /** The reason of the correction; null if the slip stays. */
  reason: string | null;
}

export interface Weights {
  intake: PlannedWeight[];
  /** Weights of a skinned carcass, weighed again just before cutting. */
  hook: PlannedWeight[];
  /** A whole animal is skinned and hung within hours. */
  hookAtIntake: boolean;
  table: PlannedWeight[];
  /** Parts that a shop which weighs every part states as none. */
  none: NonePart[];
}

interface Asked {
  profile: SpeciesProfile;
  brought: Brought;
  baseGrams: number;
  days: number;
  truth: Record<Part, number>;
  detailed: boolean;
  weighsTrim: boolean;
}

/** Capacity of a tote. */
const TOTE_GRAMS = 50 * GRAMS_PER.lb;
const WEIGHED_AGAIN = 0.3;
/** The demo's cooler matches the published rates. */
const PUBLISHED = learnShrink([], () => undefined);
/** Below this, a part is not weighed. */
const MIN_GRAMS = 150;

export function weightsOf(animal: Asked, draw: Draw): Weights {
  const { brought, profile, baseGrams, days } = animal;
  const table = tableOf(animal, draw);
  const none = noneOf(animal);
  const received = (grams: number): PlannedWeight[] => [
    { stage: 'received', part: 'carcass', typed: typedSomehow(grams, draw) },
  ];
  const hanging: PlannedWeight[] = [
    { stage: 'hanging', part: 'carcass', typed: typedSomehow(baseGrams, draw) },
  ];
  if (brought === 'whole') {
    const { mean, sd } = profile.ratios.dressedToHanging;
    const intake = received(baseGrams / (mean + 0.7 * sd * draw.normal()));
    return { intake, hook: hanging, hookAtIntake: true, table, none };
  }
  if (brought === 'skinned' && days > 0 && draw.maybe(WEIGHED_AGAIN)) {
    const shrink = PUBLISHED.expected(
      { species: profile.code, brought, receivedGrams: baseGrams, days },
      profile,
    );
    const intake = received(baseGrams / (1 - shrink.mean - 0.7 * shrink.sd * draw.normal()));
    return { intake, hook: hanging, hookAtIntake: false, table, none };
  }
  return { intake: received(baseGrams), hook: [], hookAtIntake: false, table, none };
}

/** Waste first or last, as the cutter prefers; other animals only have trim and saved fat weighed. */
function tableOf({ truth, detailed, weighsTrim }: Asked, draw: Draw): PlannedWeight[] {
  const totes = (part: CutPart, grams: number) => totesOf(part, grams, draw);
  const trim = weighsTrim || detailed ? totes('trim', truth.trim) : [];
  const fat = totes('fat saved', truth.fatSaved);
  if (!detailed) return [...trim, ...fat];
  const waste = [...totes('sinew', truth.sinew), ...totes('bone', truth.bone)];
  const meat = [...totes('whole cuts', truth.wholeCuts), ...trim];
  const damage = totes('damage', truth.damage);
  return draw.maybe(0.5) ? [...damage, ...meat, ...fat, ...waste] : [...damage, ...waste, ...fat, ...meat];
}

/** Stated explicitly, so that an absent part does not count as forgotten. */
function noneOf({ truth, detailed }: Asked): NonePart[] {
  return detailed && truth.damage < MIN_GRAMS ? ['damage'] : [];
}

function totesOf(part: CutPart, grams: number, draw: Draw): PlannedWeight[] {
  if (grams < MIN_GRAMS) return [];
  const count = Math.ceil(grams / TOTE_GRAMS);
  const fills = Array.from({ length: count }, () => draw.between(0.8, 1.2));
  const all = fills.reduce((total, fill) => total + fill, 0);
  return fills.map((fill) => {
    const share = (grams * fill) / all;
    // The grinder later takes trim and fat out in the shop's steps.
    const typed = part === 'trim' || part === 'fat saved' ? typedOf(share) : typedSomehow(share, draw);
    return { stage: 'cut', part, typed };
  });
}
