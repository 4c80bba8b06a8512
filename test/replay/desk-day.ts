/** An opening day at the desk: every animal goes from the door to its hunter, call by call, on a clock of its own. */
import { GRAMS_PER } from '../../src/core/values/units.ts';
import type { AnimalPage, CutPart } from '../../src/desk/contract/contract.ts';
import type { FreshDesk } from '../desk/fresh-desk.ts';
import { stopwatch, type Stopwatch } from './stopwatch.ts';
import { lb, type Visitor } from './visitors.ts';

export interface DayOfWork {
  watch: Stopwatch;
  calls: number;
  animals: (Visitor & { id: number; ticket: string })[];
}

const [MINUTE, DAY] = [60, 24 * 3600];
const BETWEEN_HUNTERS = 7 * MINUTE;
/** Days that a carcass hangs, and until the laboratory answers. */
const [HANGS, RESULT] = [4, 10];
const POOL = 5;
const SAUSAGE_FAT = 0.25;
const BURGER_FAT = 0.15;
/** What the grinder keeps. */
const THROUGH = 0.995;

export async function replayDay(shop: FreshDesk, visitors: readonly Visitor[]): Promise<DayOfWork> {
  const watch = stopwatch();
  let calls = 0;
  const call = ((name, input) => {
    calls++;
    return shop.call(name, input);
  }) as FreshDesk['call'];
  const animals: DayOfWork['animals'] = [];

  for (const visitor of visitors) {
    const taken = await watch.time(visitor.tag, 'take in', () => takeIn(call, visitor));
    animals.push({ ...visitor, ...taken });
    shop.wait(BETWEEN_HUNTERS);
  }
  shop.wait(HANGS * DAY);
  for (const lotTyped of ['400', '400'])
    await call('fat.receive', {
      source: 'pork-back-fat',
      typed: lotTyped,
      costTyped: '1.10',
      costUnit: 'lb',
    });
  await work(
    shop,
    call,
    watch,
    animals.filter(({ sample }) => !sample),
  );
  shop.wait(RESULT * DAY);
  const held = animals.filter(({ sample }) => sample);
  for (const animal of held) await call('animals.testResult', { id: animal.id, result: 'not detected' });
  await work(shop, call, watch, held);
  return { watch, calls, animals };
}

type Animals = DayOfWork['animals'];

async function work(
  shop: FreshDesk,
  call: FreshDesk['call'],
  watch: Stopwatch,
  animals: Animals,
): Promise<void> {
  for (const animal of animals) {
    await watch.time(animal.tag, 'cut', () => cut(call, animal));
    shop.wait(20 * MINUTE);
  }
  const pooled = animals.filter(({ wants }) => wants === 'sausage');
  for (let i = 0; i < pooled.length; i += POOL) await grind(shop, call, watch, pooled.slice(i, i + POOL));
  for (const animal of animals.filter(({ wants }) => wants !== 'sausage'))
    await grind(shop, call, watch, [animal]);
  for (const animal of animals) {
    await watch.time(animal.tag, 'hand over', async () => {
      await call('animals.setStage', {
        id: animal.id,
        stage: 'ready',
        answer: 'weighed again',
        confirmed: true,
      });
      await call('pickup.release', { id: animal.id, to: animal.hunter.name });
    });
    shop.wait(5 * MINUTE);
  }
}

function takeIn(call: FreshDesk['call'], visitor: Visitor): Promise<{ id: number; ticket: string }> {
  const { hunter, species, sex, brought, parts, tag, sample, receivedLb, hangingLb } = visitor;
  return call('intake.takeIn', {
    hunter, species, sex, age: 'adult', brought, parts, tag, sample,
    weights: [
      { stage: 'received', typed: receivedLb },
      ...(brought === 'whole' && hangingLb ? [{ stage: 'hanging' as const, typed: hangingLb }] : []),
    ],
  }); // prettier-ignore
}

/** Opened by its ticket, weighed part by part or only what goes on, packed. */
async function cut(call: FreshDesk['call'], animal: Animals[number]): Promise<void> {
  const page = await call('animals.get', { ticket: animal.ticket });
  const animalId = page.id;
  if (animal.hangingLb && page.weights.hangingGrams === null)
    await call('table.weigh', { animalId, stage: 'hanging', part: 'carcass', typed: animal.hangingLb });
  for (const part of partsWeighed(page))
    if (animal.partsLb[part])
      await call('table.weigh', { animalId, stage: 'cut', part, typed: animal.partsLb[part] });
  await call('animals.setStage', { id: animalId, stage: 'packing' });
  const cuts = animal.partsLb['whole cuts'];
  if (cuts)
    await call('table.weigh', {
      animalId, stage: 'packed', part: 'package', product: 'Steaks and roasts', typed: cuts,
      count: Math.max(1, Math.round(Number(cuts))),
    }); // prettier-ignore
}

function partsWeighed(page: AnimalPage): readonly CutPart[] {
  return page.detail === 'detailed' ? ['whole cuts', 'trim', 'sinew', 'bone', 'damage'] : ['trim'];
}

/** One batch of one owner or of several; its time is shared among them. */
async function grind(
  shop: FreshDesk,
  call: FreshDesk['call'],
  watch: Stopwatch,
  animals: Animals,
): Promise<void> {
  const [first] = animals;
  if (!first) return;
  const fat = first.wants === 'no fat' ? 'none' : 'pork-back-fat';
  const targetFat = { 'no fat': null, 'pork fat': BURGER_FAT, sausage: SAUSAGE_FAT }[first.wants];
  const product = first.wants === 'sausage' ? 'Breakfast sausage' : 'Ground';
  const asked = { animals: animals.map(({ id }) => ({ id })), fat, targetFat };
  await watch.time(first.tag, animals.length > 1 ? 'grind, pooled batch' : 'grind', async () => {
    const { id: batchId } = await call('grinder.start', { ...asked, product });
    await call('grinder.pass', { batchId, plate: '3/8 in', tempTyped: '35F' });
    for (const part of (await call('grinder.getBatch', { id: batchId })).planned) {
      const typed = lb(part.grams / GRAMS_PER.lb);
      await call('grinder.weighIn', {
        batchId, typed,
        ...(part.fatLotId === null
          ? { animalId: part.animalId, part: 'trim' as const }
          : { fatLotId: part.fatLotId, part: 'fat added' as const }),
      }); // prettier-ignore
    }
    const { inGrams } = await call('grinder.getBatch', { id: batchId });
    const out = (inGrams / GRAMS_PER.lb) * THROUGH;
    await call('grinder.pack', { batchId, product, count: Math.max(1, Math.round(out)), typed: lb(out) });
    await call('grinder.finish', { batchId });
  });
  shop.wait(15 * MINUTE);
}
