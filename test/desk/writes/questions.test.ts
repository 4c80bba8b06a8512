/** Every question that a screen keeps open is asked where the tests of all writes look for answers out of date. */
import { expect, it } from 'vitest';
import { READS } from '../../../src/desk/reads.ts';
import { busyShop } from '../busy-shop.ts';
import { questionsOf } from '../questions.ts';

it('asks every question that may be out of date', async () => {
  const shop = await busyShop();
  const questions = questionsOf(shop);
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
