/**
 * Opening each Season view on the large book, for the first time after a weight was kept: what is kept at hand must have
 * noticed. Beside it the best single statement for the rows that the view answers with (`season-by-hand.ts`), its pages
 * already in memory.
 */
import Database from 'better-sqlite3';
import { animalToWeigh } from './desk-work.ts';
import type { BenchDesk } from './open-desk.ts';
import { BENCH_SEASON as season, BY_HAND } from './season-by-hand.ts';
import type { Measure } from './timing.ts';

/** A finished animal of the season, and a function that weighs one of its parts, or takes that weight back. */
export async function finishedAnimal(desk: Pick<BenchDesk, 'call'>): Promise<() => Promise<void>> {
  const animalId = await animalToWeigh(desk);
  const weigh = (part: 'whole cuts' | 'trim' | 'bone' | 'sinew', typed: string) =>
    desk.call('table.weigh', { animalId, stage: 'cut', part, typed, confirmed: true });
  await weigh('whole cuts', '90');
  await weigh('trim', '140');
  await weigh('bone', '70');
  await weigh('sinew', '40');
  await desk.call('animals.setStage', { id: animalId, stage: 'packing' });
  let standing: number | null = null;
  return async () => {
    if (standing === null) standing = (await weigh('bone', '5')).weighingId;
    else {
      await desk.call('table.void', { weighingId: standing, reason: 'measured' });
      standing = null;
    }
  };
}

export async function seasonViews(desk: BenchDesk): Promise<{ measures: Measure[]; close: () => void }> {
  const db = new Database(desk.path, { readonly: true });
  const change = await finishedAnimal(desk);
  const views: Record<keyof typeof BY_HAND, () => Promise<unknown>> = {
    'season.yields': () => desk.call('season.yields', { season }),
    'season.pounds': () => desk.call('season.pounds', { season }),
    'season.compare': () =>
      desk.call('season.compare', { a: { season, species: 'elk' }, b: { season, species: 'mule-deer' } }),
    'season.drilldown': () => desk.call('season.drilldown', { season, species: 'elk', order: 'takeHome' }),
    'season.fat': () => desk.call('season.fat', { season }),
    'season.check': () => desk.call('season.check', { season }),
    'season.flow': () => desk.call('season.flow', { season }),
    'costing.get': () => desk.call('costing.get', { season }),
  };
  return {
    measures: [
      ...Object.entries(views).map(([name, run]): Measure => {
        const byHand = db.prepare(BY_HAND[name as keyof typeof BY_HAND]);
        const all = () => byHand.all();
        return {
          name: `open ${name}`,
          before: change,
          run,
          baseline: { what: 'its rows in one query by hand', before: all, run: all },
          bar: { ms: 100, ratio: 2 },
        };
      }),
      {
        name: 'look at the fat to order',
        before: change,
        run: () => desk.call('fat.getNeeds', {}),
        bar: { ms: 100 },
      },
    ],
    close: () => void db.close(),
  };
}
