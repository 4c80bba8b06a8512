/** Every figure of the season's yields, pounds, comparisons and lists, against plain loops over raw rows. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CallInput, CallName, CallOutput, SeasonFilter } from '../../../src/bridge/contract.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { demoAt } from '../../demo-copy.ts';
import { writeRandomSeasons } from './random-season.ts';
import {
  rawAnimals,
  rawIncome,
  rawQuantile,
  standingWeighings,
  type RawAnimal,
  type RawWeighing,
} from './raw-season.ts';

// As many as the years that days of the trade can lie in.
const RANDOM_SEASONS = 149;
/** What the batches here make that is smoked or dried, and lighter for it. */
const DRIED = /summer sausage|snack stick|jerky/i;

const folder = mkdtempSync(join(tmpdir(), 'gambrel-season-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each([
  ['the demo', 3],
  [`${RANDOM_SEASONS} random seasons`, RANDOM_SEASONS],
])('the season views of %s', (name, seasons) => {
  const path = join(folder, `${seasons}.gambrel`);
  let desk: Desk;
  let animals: RawAnimal[];
  let byBatch: Map<number | null, RawWeighing[]>;
  let done: { id: number; product: string }[];
  /** Weighed of ingredients by batch. */
  let recipes: Map<number, number>;
  let billed: Map<number, number>;
  let bySeason: Map<number, RawAnimal[]>;
  let income: Map<number, number>;
  let db: Database.Database;
  let years: number[];

  beforeAll(async () => {
    if (name === 'the demo') {
      await demoAt(path);
      years = [2024, 2025, 2026];
    } else years = writeRandomSeasons(path, seasons, 20261125);
    desk = await openDesk({ bookPath: path, clock: () => DEMO_NOW });
    db = new Database(path, { readonly: true });
    animals = rawAnimals(db);
    byBatch = Map.groupBy(standingWeighings(db), ({ batch_id: id }) => id);
    done = db.prepare("SELECT id, product FROM batch WHERE state = 'done'").all() as typeof done;
    recipes = new Map(
      db
        .prepare<[], [number, number]>(
          `SELECT m.batch_id, sum(w.grams) FROM made_batch m JOIN made_weighed w ON w.made_id = m.id
           WHERE w.id NOT IN (SELECT weighed_id FROM made_weighed_void) AND m.id NOT IN (SELECT made_id FROM made_batch_void)
           GROUP BY m.batch_id`,
        )
        .raw()
        .all(),
    );
    billed = standingBills(db);
    bySeason = Map.groupBy(animals, ({ season }) => season);
    income = rawIncome(db, 'USD');
  });
  afterAll(() => {
    db.close();
    desk.close();
  });

  async function call<N extends CallName>(to: N, input: CallInput<N>): Promise<CallOutput<N>> {
    const answer = await desk.call(to, input);
    if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
    return answer.value as CallOutput<N>;
  }
  const under = (filter: SeasonFilter): RawAnimal[] =>
    (filter.season === undefined ? animals : (bySeason.get(filter.season) ?? [])).filter(
      (one) =>
        (filter.species === undefined || one.species === filter.species) &&
        (filter.from === undefined || one.receivedOn >= filter.from) &&
        (filter.to === undefined || one.receivedOn <= filter.to) &&
        (filter.brought === undefined || one.brought === filter.brought) &&
        (filter.sex === undefined || one.sex === filter.sex) &&
        (filter.age === undefined || one.age === filter.age) &&
        (filter.damaged === undefined || one.damaged === filter.damaged) &&
        (filter.detail === undefined || one.detail === filter.detail) &&
        (filter.cutter === undefined || one.cutter === filter.cutter),
    );
  /** Every season whole, and narrowed in some way of its own. */
  const filters = (): SeasonFilter[] => {
    const { uniform } = seededRandom(seasons);
    const one = <T>(of: readonly T[]): T => of[Math.floor(uniform() * of.length)] as T;
    return years.flatMap((season): SeasonFilter[] => [
      { season },
      // A day on which an animal came: both ends of the days belong to them.
      ...(bySeason.get(season) ?? []).slice(0, 1).map(({ receivedOn: on }) => ({ season, from: on, to: on })),
      {
        season,
        ...one<SeasonFilter>([
          { species: one(['elk', 'moose', 'mule-deer']) },
          { brought: one(['whole', 'skinned', 'boned'] as const), damaged: uniform() < 0.5 },
          { sex: one(['male', 'female'] as const), detail: one(['detailed', 'quick'] as const) },
          { age: 'adult', from: `${season}-10-01`, to: `${season}-11-10` },
          { cutter: one(['AK', 'BO', 'LB', 'MP']) },
        ]),
      },
    ]);
  };

  it('match the weighings of every animal and batch', () => {
    for (const table of ['animal_sum', 'batch_sum', 'batch_source_sum'])
      for (const [kept, right] of [
        [table, `${table}_now`],
        [`${table}_now`, table],
      ])
        // prettier-ignore
        expect(db.prepare(`SELECT * FROM ${kept} EXCEPT SELECT * FROM ${right}`).all()).toEqual([]);
    const kept = db
      .prepare(
        'SELECT animal_id AS id, base, take_home AS takeHome, share, finished, cutter FROM animal_sum ORDER BY 1',
      )
      .all();
    expect(kept).toHaveLength(animals.length);
    for (const [i, row] of (kept as Record<string, number | string | null>[]).entries()) {
      const raw = animals[i] as RawAnimal;
      expect(row).toMatchObject({ id: raw.id, finished: raw.finished ? 1 : 0, cutter: raw.cutter });
      for (const key of ['base', 'takeHome', 'share'] as const) near(row[key] as number | null, raw[key]);
    }
  });

  it('sum the take-home of each species, its quartiles, its earlier seasons and its splits', async () => {
    for (const filter of filters()) {
      const look = await call('season.yields', filter);
      const own = under(filter);
      expect(look.animals).toBe(own.length);
      near(
        look.takeHomeGrams,
        total(own, (one) => (one.finished ? one.takeHome : null)),
      );
      expect(look.withoutShare).toBe(
        own.filter((one) => ['packing', 'ready', 'released'].includes(one.stage) && one.share === null)
          .length,
      );
      expect(new Set(look.species.map(({ code }) => code))).toEqual(
        new Set(own.map(({ species }) => species)),
      );
      for (const species of look.species) {
        const shares = own
          .filter((one) => one.species === species.code)
          .flatMap(({ share }) => (share === null ? [] : [share]));
        sameSpread(species.spread, shares);
        sameOrder(
          species.points.map(({ share }) => share),
          shares,
        );
        const always = { ...filter, season: undefined, from: undefined, to: undefined };
        const ever = Map.groupBy(
          under({ ...always, species: species.code }).filter(({ share }) => share !== null),
          (one) => one.season,
        );
        expect(species.seasons.map(({ season, n }) => [season, n])).toEqual(
          [...ever].map(([season, all]) => [season, all.length]).sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0)),
        );
        for (const one of species.seasons) {
          const values = (ever.get(one.season) ?? []).map(({ share }) => share as number);
          near(one.q1, rawQuantile(values, 0.25));
          near(one.median, rawQuantile(values, 0.5));
          near(one.q3, rawQuantile(values, 0.75));
        }
        for (const [by, groups] of Object.entries(species.splits)) {
          const keyed = Map.groupBy(
            own.filter((one) => one.species === species.code && one.share !== null),
            (one) => (by === 'damaged' ? (one.damaged ? 'yes' : 'no') : one[by as 'sex' | 'cutter']),
          );
          keyed.delete(null);
          expect(new Set(groups.map(({ value }) => value))).toEqual(new Set(keyed.keys()));
          for (const { value, spread } of groups)
            sameSpread(
              spread,
              (keyed.get(value) ?? []).map(({ share }) => share as number),
            );
        }
      }
    }
  });

  it('account for every pound on the hook', async () => {
    for (const filter of filters()) {
      const look = await call('season.pounds', filter);
      const own = under(filter);
      const whole = own.filter(
        (one) =>
          one.finished &&
          (one.base ?? 0) > 0 &&
          one.takeHome !== null &&
          one.bone !== null &&
          one.sinew !== null,
      );
      expect(look.n).toBe(whole.length);
      expect(look.others).toBe(
        own.filter((one) => ['packing', 'ready', 'released'].includes(one.stage)).length - whole.length,
      );
      near(
        look.baseGrams,
        total(whole, ({ base }) => base),
      );
      const parts = Object.fromEntries(look.parts.map(({ part, grams }) => [part, grams]));
      near(
        parts['whole cuts'],
        total(whole, ({ cuts }) => cuts),
      );
      near(
        parts.trim,
        total(whole, ({ trim }) => trim),
      );
      near(
        parts['fat saved'],
        total(whole, ({ fat }) => fat),
      );
      near(
        parts.bone,
        total(whole, ({ bone }) => bone),
      );
      near(
        parts.sinew,
        total(whole, ({ sinew }) => sinew),
      );
      near(
        parts.damage,
        total(whole, ({ damage }) => damage),
      );
      const rest = whole.map(
        (one) =>
          (one.base ?? 0) - (one.takeHome ?? 0) - (one.bone ?? 0) - (one.sinew ?? 0) - (one.damage ?? 0),
      );
      near(
        look.shrinkGrams + look.unexplainedGrams,
        rest.reduce((all, grams) => all + Math.max(0, grams), 0),
      );
      near(
        look.overGrams,
        rest.reduce((all, grams) => all + Math.max(0, -grams), 0),
      );
      // Nothing is lost on the way: hook = parts + shrink + unexplained − over.
      // The bars of the kinds, of which each is a whole.
      for (const { shares } of look.species)
        near(
          total(Object.values(shares), (share) => share),
          1,
        );
      near(
        look.baseGrams,
        look.parts.reduce((all, { grams }) => all + grams, 0) +
          look.shrinkGrams +
          look.unexplainedGrams -
          look.overGrams,
      );

      let [batches, mineIn, fatIn, addedIn, out, left, dried] = [0, 0, 0, 0, 0, 0, 0];
      const ids = new Set(whole.map(({ id }) => id));
      for (const { id, product } of done) {
        const rows = byBatch.get(id) ?? [];
        const sum = (of: (row: RawWeighing) => boolean): number =>
          rows.filter(of).reduce((all, { grams }) => all + grams, 0);
        const ownIn = sum((row) => row.stage === 'grinder' && row.animal_id !== null);
        const mine = sum(
          (row) => row.stage === 'grinder' && row.animal_id !== null && ids.has(row.animal_id),
        );
        const packed = sum((row) => row.stage === 'packed');
        if (mine === 0 || packed === 0) continue;
        batches++;
        mineIn += mine;
        const fat = (sum((row) => row.stage === 'grinder' && row.animal_id === null) * mine) / ownIn;
        fatIn += fat;
        const added = ((recipes.get(id) ?? 0) * mine) / ownIn;
        addedIn += added;
        out += (packed * mine) / ownIn;
        const missing = mine + fat + added - (packed * mine) / ownIn;
        if (DRIED.test(product)) dried += missing;
        else left += missing;
      }
      expect(look.grinder.batches).toBe(batches);
      near(look.grinder.inGrams, mineIn);
      near(look.grinder.fatGrams, fatIn);
      near(look.grinder.addedGrams, addedIn);
      near(look.grinder.outGrams, out);
      near(look.grinder.lossGrams, Math.max(0, left));
      near(look.grinder.driedGrams, Math.max(0, dried));
      // Nothing is lost in the grinder either: in = out + residue + water, where neither came out heavier.
      if (left >= 0 && dried >= 0)
        near(
          look.grinder.inGrams + look.grinder.fatGrams + look.grinder.addedGrams,
          look.grinder.outGrams + look.grinder.lossGrams + look.grinder.driedGrams,
        );
      near(look.packedGrams, total(whole, ({ packed }) => packed) + out);

      let [minor, grams] = [0, 0];
      for (const one of bySeason.get(filter.season ?? 0) ?? [])
        if ((one.takeHome ?? 0) > 0 && billed.has(one.id)) {
          minor += income.get(one.id) ?? 0;
          grams += (one.takeHome ?? 0) * (billed.get(one.id) ?? 0);
        }
      near(look.minorPerKg, grams > 0 ? minor / (grams / 1000) : null);
      for (const { grams: lost, share, minor: money } of look.losses) {
        near(share, lost / (look.baseGrams + look.overGrams));
        expect(money).toBe(look.minorPerKg === null ? null : Math.round((lost / 1000) * look.minorPerKg));
      }
      // What went home and what did not are the whole, also where parts outweigh their animals.
      if (whole.length > 0) {
        const home = total(whole, ({ takeHome }) => takeHome) / (look.baseGrams + look.overGrams);
        const offTheHook = look.losses.filter(({ what }) => what !== 'grinder' && what !== 'smokehouse');
        near(home + total(offTheHook, ({ share }) => share), 1);
      }
      expect(look.losses.map((one) => one.grams)).toEqual(
        look.losses.map((one) => one.grams).toSorted((a, b) => b - a),
      );
      expect(total(look.species, ({ n }) => n)).toBe(look.n);
      for (const { code, baseGrams, shares } of look.species) {
        const own = whole.filter((one) => one.species === code);
        near(
          baseGrams,
          total(own, ({ base }) => base),
        );
        const weighed = total(own, (one) => Math.max(one.base ?? 0, partsOf(one)));
        near(
          shares.bone * weighed,
          total(own, ({ bone }) => bone),
        );
      }
    }
  });

  it('compare groups by each measure', async () => {
    const value: Record<string, (one: RawAnimal) => number | null> = {
      takeHome: ({ share }) => share,
      bone: (one) =>
        one.finished && ['whole', 'skinned'].includes(one.brought) && (one.base ?? 0) > 0 && one.bone !== null
          ? one.bone / (one.base ?? 1)
          : null,
      damage: (one) =>
        one.finished && (one.base ?? 0) > 0 && one.damage !== null ? one.damage / (one.base ?? 1) : null,
      hanging: ({ hanging }) => hanging,
      days: ({ receivedOn, readyOn }) =>
        readyOn === null ? null : (Date.parse(readyOn) - Date.parse(receivedOn)) / 86_400_000,
      income: ({ id }) => income.get(id) ?? null,
    };
    const all = filters();
    for (const [i, a] of all.entries())
      for (const by of Object.keys(value) as CallInput<'season.compare'>['by'][]) {
        const b = all[(i * 7 + 1) % all.length] as SeasonFilter;
        const look = await call('season.compare', { by, a, b });
        const values = (filter: SeasonFilter): number[] =>
          under(filter).flatMap((one) => value[by ?? '']?.(one) ?? []);
        for (const [side, filter] of [
          ['a', a],
          ['b', b],
        ] as const) {
          // prettier-ignore
          const of = values(filter);
          const mean = of.reduce((sum, one) => sum + one, 0) / of.length;
          expect(look[side].n).toBe(of.length);
          near(look[side].mean, of.length === 0 ? null : mean);
          near(
            look[side].sd,
            of.length < 2
              ? null
              : Math.sqrt(of.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (of.length - 1)),
          );
        }
        if (look.difference) {
          near(look.difference.mean, (look.a.mean ?? 0) - (look.b.mean ?? 0));
          expect(look.difference.low).toBeLessThanOrEqual(look.difference.mean);
        } else expect(Math.min(look.a.n, look.b.n)).toBeLessThan(2);
        const both = new Set(under(b).map(({ id }) => id));
        expect(look.inBoth).toBe(
          under(a).filter((one) => both.has(one.id) && (value[by ?? '']?.(one) ?? null) !== null).length,
        );
      }
  });

  it('list the animals behind a figure', async () => {
    for (const filter of filters()) {
      const look = await call('season.drilldown', { ...filter, order: 'takeHome', rising: true });
      const own = under(filter);
      expect(look.total).toBe(own.length);
      expect(new Set(look.animals.map(({ ticket }) => ticket))).toEqual(
        new Set(own.map(({ ticket }) => ticket)),
      );
      const shares = look.animals.flatMap(({ value }) => (value === null ? [] : [value]));
      sameOrder(
        shares,
        own.flatMap(({ share }) => share ?? []),
      );
      const days = await call('season.drilldown', { ...filter, order: 'days', between: [3, 3] });
      expect(days.total).toBe(
        own.filter(
          ({ receivedOn, readyOn }) =>
            readyOn !== null && Date.parse(readyOn) - Date.parse(receivedOn) === 3 * 86_400_000,
        ).length,
      );
    }
  });

  it('offer the available filter values', async () => {
    for (const season of years) {
      const look = await call('season.getChoices', { season });
      const own = under({ season });
      expect(new Map(look.species.map(({ code, animals: n }) => [code, n]))).toEqual(
        new Map([...Map.groupBy(own, ({ species }) => species)].map(([code, all]) => [code, all.length])),
      );
      expect(look.cutters).toEqual([...new Set(own.flatMap(({ cutter }) => cutter ?? []))].sort());
      const days = own.map(({ receivedOn }) => receivedOn).sort();
      expect(look.days).toEqual(days.length === 0 ? null : { from: days[0], to: days.at(-1) });
    }
  });
});

const partsOf = ({ takeHome, bone, sinew, damage }: RawAnimal): number =>
  (takeHome ?? 0) + (bone ?? 0) + (sinew ?? 0) + (damage ?? 0);

function total<T>(of: readonly T[], value: (one: T) => number | null): number {
  let sum = 0;
  for (const one of of) sum += value(one) ?? 0;
  return sum;
}

function near(got: number | null | undefined, expected: number | null): void {
  if (expected === null || got === null || got === undefined) expect(got).toBe(expected);
  else expect(Math.abs(got - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(expected)));
}

/** The same values, the first list already in ascending order. */
function sameOrder(got: readonly number[], expected: readonly number[]): void {
  expect(got).toHaveLength(expected.length);
  const sorted = [...expected].sort((a, b) => a - b);
  got.forEach((value, i) => near(value, sorted[i] as number));
}

function sameSpread(
  spread: {
    n: number;
    low: number;
    q1: number;
    median: number;
    q3: number;
    high: number;
    mean: number;
  } | null,
  values: readonly number[],
): void {
  if (spread === null) return void expect(values).toHaveLength(0);
  expect(spread.n).toBe(values.length);
  near(spread.low, Math.min(...values));
  near(spread.q1, rawQuantile(values, 0.25));
  near(spread.median, rawQuantile(values, 0.5));
  near(spread.q3, rawQuantile(values, 0.75));
  near(spread.high, Math.max(...values));
  near(spread.mean, total(values, (one) => one) / values.length);
}

/** How many standing bills each animal has. */
function standingBills(db: Database.Database): Map<number, number> {
  const voided = new Set(
    (db.prepare('SELECT bill_id FROM bill_void').all() as { bill_id: number }[]).map((one) => one.bill_id),
  );
  const bills = db.prepare("SELECT id, animal_id FROM bill WHERE currency = 'USD'").all() as {
    id: number;
    animal_id: number;
  }[];
  const counted = new Map<number, number>();
  for (const { id, animal_id: animal } of bills)
    if (!voided.has(id)) counted.set(animal, (counted.get(animal) ?? 0) + 1);
  return counted;
}
