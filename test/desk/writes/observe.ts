/** Makes one write on a busy shop, once, and notes what the tests of all writes ask about. */
import type { CallName } from '../../../src/bridge/contract.ts';
import type { DeskChanged } from '../../../src/desk/desk.ts';
import type { Stale } from '../../../src/desk/reads.ts';
import { allRows } from '../all-rows.ts';
import { busyShop, type BusyShop } from '../busy-shop.ts';
import { questionsOf, type Question } from '../questions.ts';
import { TRIED } from '../tried-writes.ts';
import { lookAnew, lookAtAll } from './season-looks.ts';

/** Who makes the writes. */
export const WHO = 'TR';
type Rows = ReturnType<typeof allRows>;

export interface Observed {
  called: CallName;
  /** The rows before, after the call was made for other openings, and after it was made for its own. */
  rows: Record<'before' | 'refused' | 'after', Rows>;
  /** What the call answers when it is meant for another opening. */
  refusals: unknown[];
  answer: unknown;
  /** The opening before and after. */
  openings: readonly [string, string];
  /** Questions whose answer changed without a word that they are out of date. */
  untold: string[];
  /** The views of the season after the write, of this desk, and of one that is opened just then. */
  season: Record<'before' | 'after' | 'anew', unknown[]>;
}

export async function observeWrite(name: CallName): Promise<Observed> {
  const prepare = TRIED[name];
  if (!prepare) throw new Error(`Try ${name} in tried-writes.ts, so that it is seen to leave a trail.`);
  const shop = await busyShop();
  const [called, input] = await prepare(shop);
  shop.wait(60);
  const signed = { ...input, by: WHO };
  const seasonBefore = await lookAtAll(shop.desk);
  const questions = questionsOf(shop);
  const answersBefore = await answersOf(shop, questions);
  const before = allRows(shop.bookPath);

  const refusals: unknown[] = [];
  for (const other of ['of another book', null]) refusals.push(await shop.desk.call(name, signed, other));
  const refused = allRows(shop.bookPath);

  const { opening } = await shop.call('shop.get', {});
  const heard: DeskChanged[] = [];
  shop.desk.onChanged((changed) => heard.push(changed));
  const answer: unknown = await shop.desk.call(called, signed, opening);
  const after = allRows(shop.bookPath);
  const answersAfter = await answersOf(shop, questions);
  const untold = questions.filter(
    (question, i) =>
      answersBefore[i] !== answersAfter[i] && !heard.some(({ stale }) => isTold(stale, question)),
  );
  const season = {
    before: seasonBefore,
    after: await lookAtAll(shop.desk),
    anew: await lookAnew(shop.bookPath),
  };
  const openings = [opening, (await shop.call('shop.get', {})).opening] as const;
  shop.desk.close();
  return {
    called,
    rows: { before, refused, after },
    refusals,
    answer,
    openings,
    untold: untold.map(([ask]) => ask),
    season,
  };
}

async function answersOf(shop: BusyShop, questions: readonly Question[]): Promise<string[]> {
  const answers: string[] = [];
  for (const [name, input] of questions) answers.push(JSON.stringify(await shop.desk.call(name, input)));
  return answers;
}

function isTold(stale: Stale | null, [name, input]: Question): boolean {
  if (stale === null || stale.asks.includes(name)) return true;
  const { id, animalId = id } = input as { id?: number; animalId?: number };
  return (
    stale.ofAnimals.asks.includes(name) && animalId !== undefined && stale.ofAnimals.ids.includes(animalId)
  );
}
