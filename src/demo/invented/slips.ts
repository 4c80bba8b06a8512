/** Plants slips in the weighings: some stay for the balance to find, some are put right by the shop. */
import type { DemoAnimal } from './animal.ts';
import { MISTAKES, type SlipWanted } from './invention.ts';
import { PART_OF } from '../../desk/animal/weighed-parts.ts';
import { sdOf } from '../../desk/weighing/weighing-check.ts';
import { priorKnowledge } from '../../desk/learning/yield-knowledge.ts';
import { gramsOf, slipped } from './typed.ts';
import type { PlannedWeight } from './weights.ts';

/** A slip smaller than this share of the animal is lost in what animals differ by. */
const LEAST = 0.12;
/** Standard deviations from what is usual. */
const FAR = 3.4;
/** A tote heavier than this share of its animal would stop anybody. */
const HEAVIEST = 0.42;
/** A carcass so far from what came in would be asked about by anybody. */
const MOST = 0.28;

/** Animals with a slip that nobody noticed, in the order in which they were planted. */
export function plantSlips(animals: readonly DemoAnimal[], today: string): DemoAnimal[] {
  const used = new Set<DemoAnimal>();
  const plant = (wanted: SlipWanted, reason: string | null): DemoAnimal[] => {
    for (const animal of animals) {
      if (used.has(animal) || !fits(animal, wanted, today)) continue;
      const weight = allWeights(animal).find((one) => slips(animal, one, wanted, reason !== null));
      const typed = weight && slipped(weight.typed, wanted.slip);
      if (!weight || !typed) continue;
      weight.slip = { kind: wanted.slip, typed, reason };
      used.add(animal);
      return [animal];
    }
    return [];
  };
  const left = MISTAKES.left.flatMap((wanted) => plant(wanted, null));
  for (const wanted of MISTAKES.corrected) plant(wanted, wanted.reason ?? 'Mistyped');
  return left;
}

export function allWeights({ weights }: DemoAnimal): PlannedWeight[] {
  return [...weights.intake, ...weights.hook, ...weights.table];
}

function fits(animal: DemoAnimal, { species, weeks, part, today: now }: SlipWanted, today: string): boolean {
  if (!species.includes(animal.kind.code) || animal.order.sausageGrams > 0) return false;
  const carcass = part === 'received' || part === 'hanging';
  // Only an animal of which every part is weighed gives the balance something to hold a weight against.
  if (!animal.detailed || (carcass && animal.weights.hook.length === 0)) return false;
  if (now) return animal.cutOn === today;
  const [first = 0, last = Infinity] = weeks ?? [];
  return animal.week >= first && animal.week <= last && animal.cutOn < today;
}

function slips(animal: DemoAnimal, weight: PlannedWeight, wanted: SlipWanted, noticed: boolean): boolean {
  if (wanted.part !== (weight.part === 'carcass' ? weight.stage : weight.part)) return false;
  const typed = slipped(weight.typed, wanted.slip);
  if (typed === null) return false;
  const base = gramsOf((animal.weights.hook[0] ?? animal.weights.intake[0] ?? weight).typed);
  const [right, wrong] = [gramsOf(weight.typed), gramsOf(typed)];
  if (wanted.slip === 'weighed twice') return noticed || stands(animal, weight, right, base);
  const off = Math.abs(wrong - right) / base;
  // Parts that outweigh their animal teach the shop nothing: one such slip is enough.
  const heavy = noticed || wanted.heavy === true;
  if (weight.part !== 'carcass')
    return (
      (noticed || stands(animal, weight, wrong - right, base)) && wrong < (heavy ? HEAVIEST * base : right)
    );
  // A hanging weight above what was received is refused, and so can only be put right.
  return noticed ? off >= LEAST && weight.stage === 'received' : wrong < right && off >= LEAST && off <= MOST;
}

/** Whether what was weighed of a part then lies far from what is usual of the species. */
function stands(animal: DemoAnimal, { part }: PlannedWeight, off: number, base: number): boolean {
  const { kind, brought, sex, age } = animal;
  const heap = part === 'whole cuts' ? ['whole cuts', 'trim'] : [part];
  const usual = priorKnowledge().shares({ species: kind.code, brought, sex, age })[
    part === 'whole cuts' ? 'meat' : (PART_OF[part] ?? 'meat')
  ];
  const weighed = animal.weights.table
    .filter((one) => heap.includes(one.part))
    .reduce((total, { typed }) => total + gramsOf(typed), off);
  return Math.abs(weighed / base - usual.mean) > FAR * sdOf(usual);
}
