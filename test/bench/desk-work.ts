/** What a hand waits for all day: saving a weight, finding a hunter, quoting on the phone. */
import type { CallInput } from '../../src/bridge/contract.ts';
import { writtenByHand } from './by-hand.ts';
import type { BenchDesk } from './open-desk.ts';
import type { Measure } from './timing.ts';

export const QUOTE: CallInput<'quotes.calculate'> = {
  species: 'elk',
  sex: 'male',
  age: 'adult',
  brought: 'skinned',
  stage: 'hanging',
  typed: '350 lb',
  instructions: {
    cutsShare: 0.4,
    fat: 'pork-back-fat',
    targetFat: 0.15,
    grindProduct: 'Ground',
    packageGrams: 453.59237,
    extras: [],
  },
};

/** An animal on the hook that weights can be kept for without end. */
export async function animalToWeigh(desk: Pick<BenchDesk, 'call'>): Promise<number> {
  const { id } = await desk.call('intake.takeIn', {
    hunter: { name: 'Bench Mark', phone: '555-0100' },
    species: 'elk',
    sex: 'male',
    age: 'adult',
    brought: 'skinned',
    detail: 'detailed',
  });
  await desk.call('table.weigh', { animalId: id, stage: 'hanging', part: 'carcass', typed: '400' });
  return id;
}

/** So many animals are cut by turns, as in a shop, so that none gets more weights than an animal has. */
const ON_THE_HOOK = 40;

export async function deskWork(desk: BenchDesk): Promise<{ measures: Measure[]; close: () => void }> {
  const byHand = writtenByHand(desk.path, ON_THE_HOOK);
  const animals: number[] = [];
  for (let i = 0; i < ON_THE_HOOK; i++) animals.push(await animalToWeigh(desk));
  let weighed = 0;
  let standing: number | null = null;
  const animalId = () => animals[weighed % ON_THE_HOOK] as number;
  const weigh = async () => {
    const typed = (10 + (weighed % 900) / 100).toFixed(2);
    const kept = await desk.call('table.weigh', { animalId: animalId(), stage: 'cut', part: 'trim', typed });
    standing = kept.weighingId;
  };
  const takeBack = async () => {
    if (standing !== null) await desk.call('table.void', { weighingId: standing, reason: 'measured' });
    standing = null;
  };
  /** Not timed: the last weight is taken back, so that no animal outgrows its hook, and the next one's turn comes. */
  const next = async () => {
    await takeBack();
    weighed++;
  };
  return {
    measures: [
      {
        name: 'save one weighing',
        rounds: 60,
        before: next,
        run: weigh,
        baseline: { what: 'the same rows by prepared SQL in one transaction', run: byHand.rows },
        bar: { ratio: 1.5 },
      },
      {
        name: 'save one weighing, beside its row alone',
        rounds: 60,
        before: next,
        run: weigh,
        baseline: { what: 'a bare prepared INSERT into the same table', run: byHand.row },
        bar: { ratio: 3 },
      },
      {
        name: 'save one weighing, until its page is new',
        before: next,
        run: async () => {
          await weigh();
          await desk.call('animals.get', { id: animalId() });
        },
      },
      {
        name: 'take one weight back',
        before: async () => {
          await next();
          await weigh();
        },
        run: takeBack,
      },
      { name: 'quote', run: () => desk.call('quotes.calculate', QUOTE), bar: { ms: 20 } },
      {
        name: 'find a hunter by name',
        run: () => desk.call('hunters.find', { text: 'whit' }),
        bar: { ms: 10 },
      },
      {
        name: 'find a hunter by one letter',
        run: () => desk.call('hunters.find', { text: 'd' }),
        bar: { ms: 10 },
      },
      {
        name: 'find a hunter by phone',
        run: () => desk.call('hunters.find', { text: '0142' }),
        bar: { ms: 10 },
      },
      { name: 'find nobody', run: () => desk.call('hunters.find', { text: 'zqxj' }), bar: { ms: 10 } },
      {
        name: 'find an animal by number',
        run: () => desk.call('animals.find', { text: '147' }),
        bar: { ms: 10 },
      },
      {
        name: 'find an animal by hunter',
        run: () => desk.call('animals.find', { text: 'dana' }),
        bar: { ms: 10 },
      },
      { name: 'open an animal', run: () => desk.call('animals.get', { ticket: '26-0147' }) },
      { name: 'look at the rail', run: () => desk.call('rail.get', {}) },
      { name: 'look at pick-up', run: () => desk.call('pickup.get', {}) },
      { name: 'look at the grinder', run: () => desk.call('grinder.get', {}) },
    ],
    close: byHand.close,
  };
}
