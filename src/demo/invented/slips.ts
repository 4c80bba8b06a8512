/** Plants slips in the weighings: some remain for the balance to find, the shop corrects the others. */
import type { DemoAnimal } from './animal.ts';
import { MISTAKES, type SlipWanted } from './invention.ts';
import { PART_OF } from '../../desk/animal/weighed-parts.ts';
import { sdOf } from '../../desk/weighing/weighing-check.ts';
import { priorKnowledge } from '../../desk/learning/yield-knowledge.ts';
import { gramsOf, slipped } from './typed.ts';
import type { PlannedWeight } from './weights.ts';

/** A slip smaller than this share of the animal is within natural variation. */
const MIN_DEVIATION = 0.12;
/** In standard deviations from the usual. */
const MIN_Z = 3.4;
/** A tote heavier than this share of its animal would be noticed. */
const MAX_TOTE_SHARE = 0.42;
/** A carcass further than this from its received weight would be questioned. */
const MAX_DEVIATION = 0.28;

/** Animals with an uncorrected slip, in the order of planting. */
export function plantSlips(animals: readonly DemoAnimal[], today: string): DemoAnimal[] {
  const used = new Set<DemoAnimal>();
  const plant = (spec: SlipWanted, reason: string | null): DemoAnimal[] => {
    for (const animal of animals) {
      if (used.has(animal) || !fits(animal, spec, today)) continue;
      const weight = allWeights(animal).find((one) => slips(animal, one, spec, reason !== null));
      const typed = weight && slipped(weight.typed, spec.slip);
      if (!weight || !typed) continue;
      weight.slip = { kind: spec.slip, typed, reason };
      used.add(animal);
      return [animal];
    }
    return [];
  };
  const left = MISTAKES.left.flatMap((spec) => plant(spec, null));
  for (const wanted of MISTAKES.corrected) plant(wanted, wanted.reason ?? 'Mistyped');
  return left;
}

export function allWeights({ weights }: DemoAnimal): PlannedWeight[] {
  return [...weights.intake, ...weights.hook, ...weights.table];
}

function fits(animal: DemoAnimal, { species, weeks, part, today: now }: SlipWanted, today: string): boolean {
  if (!species.includes(animal.kind.code) || animal.order.sausageGrams > 0) return false;
  const carcass = part === 'received' || part === 'hanging';
  // The balance can only check animals with every part weighed.
  if (!animal.detailed || (carcass && animal.weights.hook.length === 0)) return false;
  if (now) return animal.cutOn === today;
  const [first = 0, last = Infinity] = weeks ?? [];
  return animal.week >= first && animal.week <= last && animal.cutOn < today;
}

function slips(animal: DemoAnimal, weight: PlannedWeight, spec: SlipWanted, noticed: boolean): boolean {
  if (spec.part !== (weight.part === 'carcass' ? weight.stage : weight.part)) return false;
  const typed = slipped(weight.typed, spec.slip);
  if (typed === null) return false;
  const base = gramsOf((animal.weights.hook[0] ?? animal.weights.intake[0] ?? weight).typed);
  const [right, wrong] = [gramsOf(weight.typed), gramsOf(typed)];
  if (spec.slip === 'weighed twice') return noticed || stands(animal, weight, right, base);
  const off = Math.abs(wrong - right) / base;
  // Parts that outweigh their animal are left out of the model: one such slip is enough.
  const heavy = noticed || spec.heavy === true;
  if (weight.part !== 'carcass')
    return (
      (noticed || stands(animal, weight, wrong - right, base)) &&
      wrong < (heavy ? MAX_TOTE_SHARE * base : right)
    );
  // A hanging weight above the received one is refused, so it can only be corrected.
  return noticed
    ? off >= MIN_DEVIATION && weight.stage === 'received'
    : wrong < right && off >= MIN_DEVIATION && off <= MAX_DEVIATION;
}

/** Whether the weighed part is far outside the usual range of the species. */
function stands(animal: DemoAnimal, { part }: PlannedWeight, off: number, base: number): boolean {
  const { kind, brought, sex, age } = animal;
  const heap = part === 'whole cuts' ? ['whole cuts', 'trim'] : [part];
  const usual = priorKnowledge().shares({ species: kind.code, brought, sex, age })[
    part === 'whole cuts' ? 'meat' : (PART_OF[part] ?? 'meat')
  ];
  const weighed = animal.weights.table
    .filter((one) => heap.includes(one.part))
    .reduce((total, { typed }) => total + gramsOf(typed), off);
  return Math.abs(weighed / base - usual.mean) > MIN_Z * sdOf(usual);
}
