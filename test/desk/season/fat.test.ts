/** Every figure of the season's fat, against plain loops over raw rows. */
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CallInput, CallOutput, FatReport } from '../../../src/bridge/contract.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { bookOf } from './books.ts';
import { rawAnimals, standingWeighings, type RawAnimal, type RawWeighing } from './raw-season.ts';

interface RawBatch {
  id: number;
  season: number;
  started_on: string;
  target_fat: number | null;
  plan: string;
}
interface RawLot {
  id: number;
  source: string;
  animal_id: number | null;
  cost_minor: number | null;
  cost_unit: 'lb' | 'kg' | null;
}

/** A busy machine writes two hundred seasons slowly. */
const HOOK_MS = 240_000;

const sum = (values: readonly number[]): number => values.reduce((total, one) => total + one, 0);
const grams = (rows: readonly RawWeighing[]): number => sum(rows.map((row) => row.grams));

describe.each(['the demo', 'random seasons'] as const)('fat through the grinds of %s', (name) => {
  let desk: Desk;
  let db: Database.Database;
  let years: number[];
  let animals: Map<number, RawAnimal>;
  let intoBatch: Map<number | null, RawWeighing[]>;
  let lots: Map<number, RawLot>;

  beforeAll(async () => {
    const made = await bookOf(name, 77);
    years = made.years;
    desk = await openDesk({ bookPath: made.path, clock: () => DEMO_NOW });
    db = new Database(made.path, { readonly: true });
    animals = new Map(rawAnimals(db).map((animal) => [animal.id, animal]));
    intoBatch = Map.groupBy(
      standingWeighings(db).filter(({ stage }) => stage === 'grinder'),
      (row) => row.batch_id,
    );
    lots = new Map((db.prepare('SELECT * FROM fat_lot').all() as RawLot[]).map((lot) => [lot.id, lot]));
  }, HOOK_MS);
  afterAll(() => {
    db.close();
    desk.close();
  });

  async function look(filter: CallInput<'season.fat'>): Promise<FatReport> {
    const answer = await desk.call('season.fat', filter);
    expect(answer).toMatchObject({ ok: true });
    return (answer as { value: FatReport }).value;
  }

  function rawBatches(season: number, from: string, to: string, fits: (animal: RawAnimal) => boolean) {
    const owners = new Map<number, number[]>();
    for (const { batch_id: id, animal_id: animal } of db.prepare('SELECT * FROM batch_animal').all() as {
      batch_id: number;
      animal_id: number;
    }[])
      owners.set(id, [...(owners.get(id) ?? []), animal]);
    return (db.prepare('SELECT * FROM batch ORDER BY id').all() as RawBatch[]).filter(
      (batch) =>
        batch.season === season &&
        batch.started_on >= from &&
        batch.started_on <= to &&
        (owners.get(batch.id) ?? []).some((id) => fits(animals.get(id) as RawAnimal)),
    );
  }

  const lastTest = (id: number): number | null =>
    (db.prepare('SELECT fat FROM fat_test WHERE batch_id = ? ORDER BY id').all(id) as { fat: number }[]).at(
      -1,
    )?.fat ?? null;

  async function compare(
    season: number,
    filter: CallInput<'season.fat'>,
    fits: (animal: RawAnimal) => boolean,
    came: (animal: RawAnimal) => boolean,
  ) {
    const seen = await look({ season, ...filter });
    const raw = rawBatches(season, filter.from ?? '', filter.to ?? '9999', fits);
    const at = new Map(seen.batches.map((batch) => [batch.id, batch]));
    expect(seen.batches.map(({ id }) => id)).toEqual(raw.map(({ id }) => id));

    let aimed = 0;
    let onTarget = 0;
    const gaps: number[] = [];
    const offs: number[] = [];
    for (const batch of raw) {
      const { weighedIn, target, planned, tested } = at.get(batch.id) as FatReport['batches'][number];
      expect([target, planned, tested]).toEqual([
        batch.target_fat,
        (JSON.parse(batch.plan) as { fat: number }).fat,
        lastTest(batch.id),
      ]);
      expect(weighedIn === null).toBe((intoBatch.get(batch.id) ?? []).length === 0);
      if (target !== null && weighedIn !== null) {
        aimed += 1;
        if (Math.abs(weighedIn - target) <= 0.01 + 1e-9) onTarget += 1;
      }
      if (tested !== null && weighedIn !== null) gaps.push(tested - weighedIn);
      if (tested !== null && target !== null) offs.push(tested - target);
    }
    expect(seen.counts).toMatchObject({
      batches: raw.length,
      withTarget: aimed,
      onTarget,
      testedWithTarget: offs.length,
    });
    expect(seen.counts.gap?.n ?? 0).toBe(gaps.length);
    if (gaps.length > 0) expect(seen.counts.gap?.mean).toBeCloseTo(sum(gaps) / gaps.length, 9);
    if (offs.length < 5) expect(seen.control).toBeNull();
    else expect(seen.control?.centre).toBeCloseTo(sum(offs) / offs.length, 9);

    const rows = raw.flatMap(({ id }) => intoBatch.get(id) ?? []);
    const bySource = new Map<
      string,
      { grams: number; batches: Set<number | null>; cost: number; priced: boolean }
    >();
    for (const row of rows) {
      if (row.fat_lot_id === null) continue;
      const lot = lots.get(row.fat_lot_id) as RawLot;
      const key = row.animal_id === null ? lot.source : 'own';
      const known = bySource.get(key) ?? { grams: 0, batches: new Set(), cost: 0, priced: false };
      known.grams += row.grams;
      known.batches.add(row.batch_id);
      if (lot.cost_minor !== null && row.animal_id === null) {
        known.priced = true;
        known.cost += (row.grams / (lot.cost_unit === 'kg' ? 1000 : 453.59237)) * lot.cost_minor;
      }
      bySource.set(key, known);
    }
    expect(seen.sources.map(({ source }) => source).sort()).toEqual([...bySource.keys()].sort());
    for (const source of seen.sources) {
      const known = bySource.get(source.source);
      expect(source.grams).toBeCloseTo(known?.grams ?? -1, 6);
      expect(source.batches).toBe(known?.batches.size);
      if (known?.priced) expect(Math.abs((source.costMinor ?? 0) - known.cost)).toBeLessThan(0.5 + 1e-6);
      else expect(source.costMinor).toBeNull();
    }

    const gave = [...animals.values()].filter((animal) => animal.season === season && came(animal));
    const savedOf = (id: number, stage: string): number =>
      grams((byAnimal().get(id) ?? []).filter((row) => row.stage === stage && row.part === 'fat saved'));
    expect(seen.saved.savedGrams).toBeCloseTo(sum(gave.map(({ id }) => savedOf(id, 'cut'))), 5);
    expect(seen.saved.ownUsedGrams).toBeCloseTo(sum(gave.map(({ id }) => savedOf(id, 'grinder'))), 5);
    expect(seen.saved.animals).toBe(
      gave.filter(({ id }) => savedOf(id, 'cut') > 0 || savedOf(id, 'grinder') > 0).length,
    );
    expect(seen.saved.boughtGrams).toBeCloseTo(grams(rows.filter((row) => row.animal_id === null)), 5);

    for (const one of seen.species) {
      let bought = 0;
      let own = 0;
      const [ids, weights, misses] = [new Set<number>(), [] as number[], [] as number[]];
      for (const batch of raw) {
        const all = intoBatch.get(batch.id) ?? [];
        const meat = all.filter((row) => row.animal_id !== null);
        const mine = meat.filter((row) => animals.get(row.animal_id as number)?.species === one.code);
        for (const row of mine) {
          ids.add(row.animal_id as number);
          if (row.fat_lot_id !== null) own += row.grams;
        }
        if (mine.length === 0) continue;
        bought += (grams(all.filter((row) => row.animal_id === null)) * grams(mine)) / grams(meat);
        const tested = lastTest(batch.id);
        if (tested === null || batch.target_fat === null) continue;
        weights.push(grams(mine));
        misses.push((tested - batch.target_fat) * grams(mine));
      }
      expect(one.animals).toBe(ids.size);
      expect(one.boughtGrams).toBeCloseTo(bought, 5);
      expect(one.ownGrams).toBeCloseTo(own, 5);
      expect(one.misses.tested?.batches ?? 0).toBe(weights.length);
      if (weights.length > 0) expect(one.misses.tested?.mean).toBeCloseTo(sum(misses) / sum(weights), 9);
    }
    return raw.length;
  }

  let kept: Map<number | null, RawWeighing[]> | undefined;
  function byAnimal(): Map<number | null, RawWeighing[]> {
    return (kept ??= Map.groupBy(standingWeighings(db), (row) => row.animal_id));
  }

  it('sums every season, complete and filtered', async () => {
    let batches = 0;
    for (const year of years) {
      batches += await compare(
        year,
        {},
        () => true,
        () => true,
      );
      const elk = (animal: RawAnimal): boolean => animal.species === 'elk';
      await compare(year, { species: 'elk' }, elk, elk);
      const [from, to] = [`${year}-10-01`, `${year}-11-10`];
      const male = (animal: RawAnimal): boolean => animal.sex === 'male';
      await compare(year, { sex: 'male', from, to }, male, (animal) =>
        male(animal) && animal.receivedOn >= from && animal.receivedOn <= to,
      ); // prettier-ignore
    }
    expect(batches).toBeGreaterThan(30);
  });

  it('has the same weighed-in fat of each batch as its own page', async () => {
    let checked = 0;
    for (const year of years.slice(-20)) {
      const { batches } = await look({ season: year });
      for (const { id, weighedIn } of batches) {
        const answer = (await desk.call('grinder.getBatch', { id })) as {
          value: CallOutput<'grinder.getBatch'>;
        };
        if (weighedIn === null) expect(answer.value.fat).toBeNull();
        else expect(answer.value.fat).toBeCloseTo(weighedIn, 12);
        checked += 1;
      }
    }
    expect(checked).toBeGreaterThan(10);
  });
});
