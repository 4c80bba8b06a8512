/** Weighs made-up animals in at a real desk, slips and all, and notes who is asked about what. */
import type { RandomGenerator } from '../../src/core/stats/random.ts';
import { parseReading, readingGrams } from '../../src/core/values/reading.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CallInput, CallName, CallOutput, Problem } from '../../src/bridge/contract.ts';
import { openDesk } from '../../src/desk/desk.ts';
import { inPounds, slipped, typedRight, type SlipName, type TypedTote } from './making-slips.ts';
import { draw, weighed, type Shop, type Tote, type Weighed } from './world.ts';

/** What came of one animal. */
export interface Outcome {
  /** The slip was asked about as it was entered (or refused). */
  readonly asked: boolean;
  /** The balance named the weight that was wrong. */
  readonly named: boolean;
  /** The balance said that the weights do not fit, and named none. */
  readonly unclear: boolean;
  /** Questions about weights that were right, at the entry and by the balance. */
  readonly rightQuestioned: number;
  /** Whether what was offered is what was meant; null where nothing was offered, or the slip was not found. */
  readonly offeredRight: boolean | null;
  /** The weights with the slip left in, for the best possible test. */
  readonly seen: Seen;
}

export interface Seen {
  readonly hanging: string;
  readonly saysNoDamage: boolean;
  readonly entries: readonly TypedTote[];
}

/** An offered weight is right within this share: kilograms come out a rounding step beside the pounds. */
const SAME = 0.02;

/** A desk on a fresh book, with a clock that the typing moves on. */
export async function openFloor() {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-slips-'));
  let now = Date.parse('2026-10-10T15:00:00Z');
  const desk = await openDesk({ bookPath: join(folder, 'shop.gambrel'), clock: () => new Date(now) });
  async function call<N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> {
    const answer = await desk.call(name, input);
    if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.problem)}`);
    return answer.value as CallOutput<N>;
  }
  await call('shop.setUp', { shopName: 'Cold Creek Locker', unit: 'lb' });
  return {
    desk,
    call,
    wait: (seconds: number) => void (now += seconds * 1000),
    close(): void {
      desk.close();
      rmSync(folder, { recursive: true });
    },
  };
}
type Floor = Awaited<ReturnType<typeof openFloor>>;

/** Weighs so many right animals in and finishes them, so that the desk learns the shop. */
export async function teach(
  floor: Floor,
  shop: Shop,
  chance: RandomGenerator,
  animals: number,
): Promise<void> {
  for (let i = 0; i < animals; i++) {
    const animal = weighed(shop, draw(shop, chance), chance);
    const id = await takeIn(floor, shop, animal);
    for (const tote of animal.totes) await enter(floor, id, typedRight(tote), true);
    if (animal.saysNoDamage) await sayNoDamage(floor, id);
    await floor.call('animals.setStage', { id, stage: 'packing' });
  }
}

/** Weighs one animal in, with this slip on one of its totes, or with none. */
export async function weighIn(
  floor: Floor,
  shop: Shop,
  chance: RandomGenerator,
  slip: SlipName | null,
): Promise<Outcome> {
  const { animal, at, wrong } = withSlip(shop, chance, slip);
  const id = await takeIn(floor, shop, animal);
  let asked = false;
  let rightQuestioned = 0;
  let offeredRight: boolean | null = null;
  const meant = at === null ? null : (animal.totes[at] ?? null);
  const enterRight = async (tote: Tote): Promise<void> => {
    if (await enter(floor, id, typedRight(tote), false)) return;
    rightQuestioned += 1;
    await enter(floor, id, typedRight(tote), true);
  };
  for (const [i, tote] of animal.totes.entries()) {
    const extra = slip === 'entered twice' || slip === 'wrong animal';
    if (i !== at || extra) await enterRight(tote);
    if (i !== at || !wrong) continue;
    floor.wait(60);
    const problem = await ask(floor, id, wrong);
    if (problem === null) continue;
    asked = true;
    offeredRight = offerOf(problem, slip, tote);
    if (!extra) await enterRight(tote);
  }
  if (animal.saysNoDamage) await sayNoDamage(floor, id);
  await floor.call('animals.setStage', { id, stage: 'packing' });
  const { balance, weighings } = await floor.call('animals.get', { id });
  const [suspect] = balance.suspects;
  const row = weighings.find((one) => one.id === suspect?.weighingId);
  const named = !asked && !!wrong && row?.typed === wrong.typed && row.part === wrong.part;
  if (suspect && !named) rightQuestioned += 1;
  if (named && meant) offeredRight = offeredBy(suspect, slip, meant);
  // It must not teach the desk, so that every animal meets the same shop.
  await floor.call('animals.setStage', { id, stage: 'cutting' });
  const entries = animal.totes.flatMap((tote, i): TypedTote[] => {
    if (i !== at || !wrong) return [typedRight(tote)];
    return slip === 'entered twice' || slip === 'wrong animal' ? [typedRight(tote), wrong] : [wrong];
  });
  const seen = { hanging: inPounds(animal.hangingLb), saysNoDamage: animal.saysNoDamage, entries };
  return {
    asked,
    named,
    unclear: balance.doubtful && !suspect,
    rightQuestioned,
    offeredRight,
    seen,
  };
}

export function withSlip(
  shop: Shop,
  chance: RandomGenerator,
  slip: SlipName | null,
): { animal: Weighed; at: number | null; wrong: TypedTote | null } {
  for (;;) {
    const animal = weighed(shop, draw(shop, chance), chance);
    if (slip === null) return { animal, at: null, wrong: null };
    const stranger = weighed(shop, draw(shop, chance), chance).totes;
    const at = Math.floor(chance.uniform() * animal.totes.length);
    const tote = animal.totes[at];
    const other = stranger[Math.floor(chance.uniform() * stranger.length)];
    if (!tote || !other) continue;
    const wrong = slipped(slip, tote, other, chance);
    if (wrong) return { animal, at, wrong };
  }
}

async function takeIn(floor: Floor, shop: Shop, { hangingLb }: Weighed): Promise<number> {
  const { id } = await floor.call('intake.takeIn', {
    hunter: { name: 'Dana Whitlock', phone: '555-0142' },
    species: shop.species.code,
    sex: 'male',
    age: 'adult',
    brought: 'skinned',
    detail: 'detailed',
  });
  await floor.call('table.weigh', {
    animalId: id,
    stage: 'hanging',
    part: 'carcass',
    typed: inPounds(hangingLb),
    confirmed: true,
  });
  return id;
}

/** Enters a weight; false where it was asked about and not kept. */
async function enter(floor: Floor, animalId: number, tote: TypedTote, confirmed: boolean): Promise<boolean> {
  floor.wait(60);
  if (!confirmed) return (await ask(floor, animalId, tote)) === null;
  await floor.desk.call('table.weigh', { animalId, stage: 'cut', ...tote, confirmed });
  return true;
}

/** Enters a weight as somebody who does not insist: the question, or null where it was kept. */
async function ask(floor: Floor, animalId: number, tote: TypedTote): Promise<Problem | null> {
  const answer = await floor.desk.call('table.weigh', { animalId, stage: 'cut', ...tote });
  return answer.ok ? null : answer.problem;
}

async function sayNoDamage(floor: Floor, animalId: number): Promise<void> {
  // Refused where another animal's damage is on this one's list: then there is nothing to state.
  await floor.desk.call('table.stateNone', { animalId, part: 'damage' });
}

function offerOf({ with: told }: Problem, slip: SlipName | null, tote: Tote): boolean | null {
  if (told?.['slip'] === 'weighed-twice') return slip === 'entered twice';
  const likely = told?.['likely'];
  return likely === undefined ? null : isMeant(String(likely), tote);
}

function offeredBy(
  suspect:
    | { twice: boolean; otherAnimal: boolean; likely: { typed: string; kind: string } | null }
    | undefined,
  slip: SlipName | null,
  tote: Tote,
): boolean | null {
  if (!suspect) return null;
  if (suspect.twice) return slip === 'entered twice';
  if (suspect.otherAnimal) return slip === 'wrong animal' || slip === 'entered twice';
  return suspect.likely ? isMeant(suspect.likely.typed, tote) : null;
}

/** Offered weights are gross, as typed; one that takes a container out offers what was in it. */
function isMeant(typed: string, { lb, container }: Tote): boolean {
  const pounds = readingGrams(parseReading(typed, 'lb')) / 453.59237;
  return [lb, lb + container].some((right) => Math.abs(pounds - right) <= SAME * right);
}
