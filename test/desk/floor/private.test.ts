/**
 * What leaves the office's stations and what does not: each query and each write of the floor is made in the demo season and in a
 * fresh shop whose hunters have marked numbers, and its answer is searched for marks and for sums of money.
 */
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CallInput, CallName, CallOutput } from '../../../src/bridge/contract.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import type { Place } from '../../../src/trade/place.ts';
import { askedIn, READINGS, type Asked } from '../../bench/readings.ts';
import type { BenchDesk } from '../../bench/open-desk.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { busyShop } from '../busy-shop.ts';
import { deskOn, freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { TRIED } from '../tried-writes.ts';

const MARK = 'MARKED';
const PRIVATE = ['phone', 'email', 'address', 'licence'];

/** Paths in an answer at which something stands that the floor is not to see. */
function leaks(value: unknown, path = ''): string[] {
  if (typeof value === 'string') return value.includes(MARK) ? [path] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const at = `${path}.${key}`;
    const isSum = /Minor$|^cost|^bookPath$|^secondBackupFolder$/.test(key);
    if (isSum && inner !== 0 && inner !== null && inner !== '') return [at];
    return leaks(inner, at);
  });
}

function markHunters(path: string): void {
  const db = new Database(path);
  for (const column of PRIVATE) db.exec(`UPDATE hunter SET ${column} = '${MARK} ' || id`);
  db.exec(`UPDATE animal SET licence = '${MARK}', deliverer_address = '${MARK}'`);
  db.close();
}

/** The price list of the check-in hangs in the shop for everybody to read. */
const isOfNoList = (path: string): boolean => !/^\.prices\.lines\.\d+\.amountMinor$/.test(path);

const FLOOR = (Object.keys(procedures) as CallName[]).filter((call) =>
  procedures[call].places.some((place) => place !== 'office'),
);
const floorPlaces = (call: CallName): Place[] =>
  procedures[call].places.filter((place) => place !== 'office');

describe('a query of the floor', () => {
  let shop: FreshDesk;
  let asked: Asked;
  let opening: string;
  /** Asks as a station would; `office` gets all of it. */
  const askingAt = (place: Place) => ({
    async call<N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> {
      const answer = await shop.desk.callFrom({ place }, name, input, opening);
      if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.problem)}`);
      return answer.value as CallOutput<N>;
    },
  });

  beforeAll(async () => {
    const path = tempBookPath();
    await demoAt(path);
    markHunters(path);
    shop = await deskOn(path, DEMO_NOW.toISOString());
    ({ opening } = await shop.call('shop.get', {}));
    asked = await askedIn(shop as unknown as BenchDesk);
  }, 120_000);
  afterAll(() => shop.desk.close());

  const queries = Object.entries(READINGS).filter(([, { call }]) => FLOOR.includes(call));
  it.each(queries)('%s: tells no price and no number of a hunter', async (_, { call, ask }) => {
    for (const place of floorPlaces(call))
      expect(leaks(await ask(askingAt(place) as BenchDesk, asked)).filter(isOfNoList)).toEqual([]);
  });

  it.each(['shop.get', 'hunters.find', 'animals.get', 'grinder.get', 'fat.listLots', 'pickup.get'] as const)(
    '%s: has what is left out',
    async (call) => {
      const of = queries.filter(([, one]) => one.call === call);
      const found = await Promise.all(of.map(([, { ask }]) => ask(askingAt('office') as BenchDesk, asked)));
      expect(found.flatMap((value) => leaks(value))).not.toEqual([]);
    },
  );

  it('in the smokehouse: neither', async () => {
    const { call } = askingAt('smokehouse');
    const { recent } = await call('loads.list', {});
    const load = recent[0];
    const madeId = load?.batches[0]?.madeId ?? 0;
    const answers = [
      await call('loads.get', { id: load?.id ?? 0 }),
      await call('made.get', { id: madeId }),
      await call('made.plan', { id: madeId }),
      await call('made.label', { id: madeId }),
      await call('made.list', {}),
      await call('recipes.list', {}),
    ];
    expect(leaks(answers)).toEqual([]);
  });
});

describe('a write of the floor', () => {
  const writes = FLOOR.filter((call) => TRIED[call] !== undefined);
  it.each(writes)('%s: answers with no price and no number of a hunter', async (call) => {
    const [place = 'table'] = floorPlaces(call);
    const shop = await freshDesk();
    const [, input] = (await TRIED[call]?.(shop)) ?? [call, {}];
    markHunters(shop.bookPath);
    shop.wait(60);
    const { opening } = await shop.call('shop.get', {});
    const answer = await shop.desk.callFrom({ place }, call, input, opening);
    expect(answer).toMatchObject({ ok: true });
    expect(leaks(answer)).toEqual([]);
    shop.desk.close();
  });

  it('that is refused for money says no sum', async () => {
    const shop = await busyShop();
    await shop.call('bills.create', { animalId: shop.done });
    const { opening } = await shop.call('shop.get', {});
    const unpaid = { id: shop.done, to: 'Dana', confirmed: true };
    const office = await shop.desk.callFrom({ place: 'office' }, 'pickup.release', unpaid, opening);
    expect(office).toMatchObject({ problem: { code: 'release.unpaid' } });
    expect(leaks(office)).not.toEqual([]);
    const floor = await shop.desk.callFrom({ place: 'pickup' }, 'pickup.release', unpaid, opening);
    expect(floor).toMatchObject({ problem: { code: 'release.unpaid-floor' } });
    expect(leaks(floor)).toEqual([]);
    shop.desk.close();
  });
});
