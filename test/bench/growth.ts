/** How what a hand waits for grows from one season in the book to twenty. */
import { animalToWeigh } from './desk-work.ts';
import { deskOn, type BenchDesk } from './open-desk.ts';
import { askedIn, READINGS, type Asked } from './readings.ts';
import { judged, middle, type Figure } from './timing.ts';

export const SEASONS = [1, 4, 20] as const;
const ROUNDS = 25;
const MAX_GROWTH = 1.5;
/** Below this a clock and a cache say more than the book does: a tenth of what a hand notices. */
const NOTICED_MS = 1;

async function saveOne(desk: BenchDesk, { weighedId }: { weighedId: number }): Promise<void> {
  desk.wait(3600);
  const { weighingId } = await desk.call('table.weigh', {
    animalId: weighedId,
    stage: 'cut',
    part: 'trim',
    typed: '12.34',
    confirmed: true,
  });
  await desk.call('table.void', { weighingId, reason: 'measured' });
}

/** Every reading that somebody waits for, and the one write that is done all day. */
const CALLS: Readonly<
  Record<string, (desk: BenchDesk, asked: Asked & { weighedId: number }) => Promise<unknown>>
> = {
  ...Object.fromEntries(Object.entries(READINGS).map(([name, { ask }]) => [name, ask])),
  'save one weighing': saveOne,
};

/** Median time of each call in each book, and its growth from the first to the last, with the curve beside it. */
export async function growth(): Promise<Figure[]> {
  const times = new Map<string, number[]>();
  for (const seasons of SEASONS) {
    const desk = await deskOn(seasons);
    const asked = { ...(await askedIn(desk)), weighedId: await animalToWeigh(desk) };
    for (const [name, call] of Object.entries(CALLS)) {
      const rounds: number[] = [];
      await call(desk, asked);
      for (let i = 0; i < ROUNDS; i++) {
        const start = performance.now();
        await call(desk, asked);
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
      name: `${name}, growth from 1 to 20 seasons`,
      note: `ms at ${told}`,
      value: Math.max(last, NOTICED_MS) / Math.max(first, NOTICED_MS),
      unit: '×',
      bar: { ratio: MAX_GROWTH },
    });
  });
}
