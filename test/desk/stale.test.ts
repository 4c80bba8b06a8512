/** No answer that a window shows changes without the window being told to ask again. */
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../src/bridge/contract.ts';
import type { DeskChanged } from '../../src/desk/desk.ts';
import { READS, type Stale } from '../../src/desk/reads.ts';
import { busyShop, type BusyShop } from './busy-shop.ts';
import { questionsOf, type Question } from './questions.ts';
import { TRIED } from './tried-writes.ts';

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

describe('after a call that writes', () => {
  const tried = (Object.keys(TRIED) as CallName[]).filter(
    (name) => !/^shop\.(openDemo|leaveDemo)/.test(name),
  );

  it.each(tried)('%s, every question whose answer changed is said to be out of date', async (name) => {
    const shop = await busyShop();
    const [call, input] = await TRIED[name]!(shop);
    const questions = await questionsOf(shop);
    const heard: DeskChanged[] = [];
    const before = await answersOf(shop, questions);
    shop.desk.onChanged((changed) => heard.push(changed));
    expect(await shop.desk.call(call, { ...input, by: 'TR' })).toMatchObject({ ok: true });
    const after = await answersOf(shop, questions);
    const untold = questions.filter(
      (question, i) => before[i] !== after[i] && !heard.some(({ stale }) => isTold(stale, question)),
    );
    expect(untold.map(([ask]) => ask)).toEqual([]);
    shop.desk.close();
  });

  it('asks every question that may be out of date', async () => {
    const shop = await busyShop();
    const questions = await questionsOf(shop);
    for (const [name, input] of questions)
      expect([name, await shop.desk.call(name, input)]).toMatchObject([name, { ok: true }]);
    const open = Object.entries(READS).filter(([, { all }]) => all.length > 0).map(([name]) => name); // prettier-ignore
    expect(
      [
        ...new Set<string>(questions.map(([name]) => name)),
        'quotes.calculate',
        'recipes.check',
        'season.drilldown',
      ].sort(),
    ).toEqual(open.sort());
    shop.desk.close();
  });
});
