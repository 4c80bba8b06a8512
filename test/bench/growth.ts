/** How what a hand waits for grows from one season in the book to twenty. */
import { animalToWeigh, QUOTE } from './desk-work.ts';
import { deskOn, type BenchDesk } from './open-desk.ts';
import { judged, middle, type Figure } from './timing.ts';

export const SEASONS = [1, 4, 20] as const;
const ROUNDS = 25;
const MOST_GROWTH = 1.5;
/** Below this a clock and a cache say more than the book does: a tenth of what a hand notices. */
const NOTICED_MS = 1;

const CALLS: Readonly<Record<string, (desk: BenchDesk, animalId: number) => Promise<unknown>>> = {
  'look at the shop': (desk) => desk.call('shop.look', {}),
  'look at the rail': (desk) => desk.call('rail.look', {}),
  'open an animal': (desk) => desk.call('animals.open', { ticket: '26-0147' }),
  'find an animal by number': (desk) => desk.call('animals.find', { text: '147' }),
  'find an animal by hunter': (desk) => desk.call('animals.find', { text: 'dana' }),
  'find a hunter by name': (desk) => desk.call('hunters.find', { text: 'whit' }),
  'look at the grinder': (desk) => desk.call('grinder.look', {}),
  quote: (desk) => desk.call('quote.work', QUOTE),
  'look at pick-up': (desk) => desk.call('pickup.look', {}),
  'open season.yields': (desk) => desk.call('season.yields', {}),
  'open season.pounds': (desk) => desk.call('season.pounds', {}),
  'open season.fat': (desk) => desk.call('season.fat', {}),
  'open season.check': (desk) => desk.call('season.check', {}),
  'open season.flow': (desk) => desk.call('season.flow', {}),
  'open costing.look': (desk) => desk.call('costing.look', {}),
  'save one weighing': async (desk, animalId) => {
    desk.wait(3600);
    const { weighingId } = await desk.call('table.weigh', {
      animalId,
      stage: 'cut',
      part: 'trim',
      typed: '12.34',
      sure: true,
    });
    await desk.call('table.void', { weighingId, reason: 'measured' });
  },
};

/** Median time of each call in each book, and its growth from the first to the last; for each book the curve is told in the name. */
export async function growth(): Promise<Figure[]> {
  const times = new Map<string, number[]>();
  for (const seasons of SEASONS) {
    const desk = await deskOn(seasons);
    const animalId = await animalToWeigh(desk);
    for (const [name, call] of Object.entries(CALLS)) {
      const rounds: number[] = [];
      await call(desk, animalId);
      for (let i = 0; i < ROUNDS; i++) {
        const start = performance.now();
        await call(desk, animalId);
        rounds.push(performance.now() - start);
      }
      times.set(name, [...(times.get(name) ?? []), middle(rounds)]);
    }
    desk.close();
  }
  return [...times].map(([name, curve]) => {
    const [first = NaN, last = NaN] = [curve[0], curve.at(-1)];
    const told = curve.map((ms, i) => `${SEASONS[i]}: ${ms.toFixed(1)}`).join(', ');
    return judged({
      name: `${name}, growth from 1 to 20 seasons (ms at ${told})`,
      value: Math.max(last, NOTICED_MS) / Math.max(first, NOTICED_MS),
      unit: '×',
      bar: { ratio: MOST_GROWTH },
    });
  });
}
