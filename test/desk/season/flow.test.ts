/** The flow of a season against plain loops over raw rows: every day, every wait, every hour of work. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FlowReport, SeasonFilter } from '../../../src/bridge/contract.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { demoAt } from '../../demo-copy.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { writeRandomSeasons } from './random-season.ts';
import { rawAnimals, rawQuantile, standingWeighings, type RawAnimal } from './raw-season.ts';

// As many as the years that days of the trade can lie in.
const RANDOM_SEASONS = 149;
const ZONE = 'America/Denver';
const DAY_MS = 86_400_000;
/** A busy machine writes two hundred seasons slowly. */
const HOOK_MS = 240_000;

const folder = mkdtempSync(join(tmpdir(), 'gambrel-flow-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each([
  ['the demo', [2024, 2025, 2026]],
  ['random seasons', Array.from({ length: RANDOM_SEASONS }, (_, i) => 1950 + i)],
])('the flow of %s', (name, years) => {
  const path = join(folder, `${years.length}.gambrel`);
  let desk: Desk;
  let db: Database.Database;
  let animals: RawAnimal[];
  let left: Map<number, string | null>;
  let positive: Set<number>;

  beforeAll(async () => {
    if (name === 'the demo') {
      await demoAt(path);
    } else writeRandomSeasons(path, RANDOM_SEASONS, 4711, 10);
    desk = await openDesk({ bookPath: path, clock: () => DEMO_NOW });
    await desk.call('shop.saveSettings', { changes: { zone: ZONE } });
    db = new Database(path, { readonly: true });
    animals = rawAnimals(db);
    left = leftDays(db, animals);
    positive = new Set(
      (
        db
          .prepare(
            "SELECT animal_id FROM hold JOIN hold_result r ON r.hold_id = hold.id WHERE result = 'positive'",
          )
          .all() as { animal_id: number }[]
      ).map((one) => one.animal_id),
    );
  }, HOOK_MS);
  afterAll(() => {
    db.close();
    desk.close();
  });

  async function flow(filter: SeasonFilter): Promise<FlowReport> {
    const answer = await desk.call('season.flow', filter);
    if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
    return answer.value as FlowReport;
  }
  const filters = (): SeasonFilter[] =>
    years.flatMap((season): SeasonFilter[] => [
      { season },
      (
        [{ species: 'elk' }, { brought: 'skinned' }, { sex: 'female' }, { from: `${season}-10-15` }] as const
      ).map((more) => ({ season, ...more }))[season % 4] ?? { season },
    ]);
  const under = (filter: SeasonFilter): RawAnimal[] =>
    animals.filter(
      (one) =>
        one.season === filter.season &&
        (filter.species === undefined || one.species === filter.species) &&
        (filter.brought === undefined || one.brought === filter.brought) &&
        (filter.sex === undefined || one.sex === filter.sex) &&
        (filter.from === undefined || one.receivedOn >= filter.from),
    );
  const ready = (one: RawAnimal) =>
    one.readyOn !== null && (one.stage === 'ready' || one.stage === 'released');

  it('counts intake, hanging at the end of the day and ready for every day', async () => {
    for (const filter of filters()) {
      const own = under(filter);
      const { days } = await flow(filter);
      if (own.length === 0) {
        expect(days).toEqual([]);
        continue;
      }
      expect(days[0]?.on).toBe(own.map(({ receivedOn }) => receivedOn).sort()[0]);
      for (const [i, day] of days.entries()) {
        if (i > 0) expect(Date.parse(day.on) - Date.parse(days[i - 1]?.on ?? '')).toBe(DAY_MS);
        let [taken, hanging, done] = [0, 0, 0];
        for (const one of own) {
          if (one.receivedOn === day.on) taken++;
          const gone = left.get(one.id) ?? null;
          if (one.receivedOn <= day.on && (gone === null || gone > day.on)) hanging++;
          if (ready(one) && one.readyOn === day.on) done++;
        }
        expect(day, `${filter.season}`).toEqual({ on: day.on, taken, hanging, ready: done });
      }
      // Nobody falls off the end.
      expect(days.reduce((all, { taken }) => all + taken, 0)).toBe(own.length);
      expect(days.reduce((all, one) => all + one.ready, 0)).toBe(own.filter(ready).length);
      expect(days.at(-1)?.hanging).toBe(own.filter(({ id }) => left.get(id) === null).length);
    }
  });

  it('counts the days from intake to ready, in total and by species', async () => {
    for (const filter of filters()) {
      const look = await flow(filter);
      const waits = under(filter)
        .filter(ready)
        .map((one) => ({
          species: one.species,
          days: Math.round((Date.parse(one.readyOn ?? '') - Date.parse(one.receivedOn)) / DAY_MS),
        }));
      const counted = new Map<number, number>();
      for (const { days } of waits) counted.set(days, (counted.get(days) ?? 0) + 1);
      expect(look.waits).toEqual(
        [...counted].map(([days, count]) => ({ days, animals: count })).sort((a, b) => a.days - b.days),
      );
      expect(new Set(look.waitOf.map(({ code }) => code))).toEqual(
        new Set(waits.map(({ species }) => species)),
      );
      for (const { code, spread } of look.waitOf) {
        const own = waits.filter(({ species }) => species === code).map(({ days }) => days);
        expect(spread.n).toBe(own.length);
        expect([spread.low, spread.high]).toEqual([Math.min(...own), Math.max(...own)]);
        for (const [key, p] of [
          ['q1', 0.25],
          ['median', 0.5],
          ['q3', 0.75],
        ] as const)
          expect(spread[key]).toBeCloseTo(rawQuantile(own, p), 9);
        expect(spread.mean).toBeCloseTo(own.reduce((all, one) => all + one, 0) / own.length, 9);
      }
    }
  });

  it('sums the backlog, in hours of cutting and of grinding', async () => {
    const figures = (await desk.call('costing.get', {})) as {
      value: {
        figures: {
          services: Record<'cutting' | 'grinding', { minutesPerAnimal: number; minutesPerKg: number }>;
        };
      };
    };
    const { cutting, grinding } = figures.value.figures.services;
    const standing = standingWeighings(db);
    const ofAnimal = Map.groupBy(standing, (row) => row.animal_id);
    const ofBatch = Map.groupBy(standing, (row) => row.batch_id);
    const parts = new Set(
      standing.flatMap(({ animal_id: id, stage }) =>
        id !== null && ['primal', 'cut', 'packed'].includes(stage) ? [id] : [],
      ),
    );
    const doneIn = (season: number) =>
      (db.prepare("SELECT id FROM batch WHERE season = ? AND state = 'done'").all(season) as { id: number }[])
        .map(({ id }) =>
          (ofBatch.get(id) ?? [])
            .filter((row) => row.stage === 'grinder' && row.animal_id !== null)
            .reduce((all, { grams }) => all + grams, 0),
        )
        .filter((grams) => grams > 0);
    for (const filter of filters()) {
      const { backlog } = await flow(filter);
      const own = under(filter).filter(({ id }) => !positive.has(id));
      const uncut = own.filter(
        ({ id, stage }) => (stage === 'hanging' || stage === 'cutting') && !parts.has(id),
      );
      let [grams, all, unweighed] = [0, 0, 0];
      for (const one of uncut) {
        grams += one.base ?? 0;
        if (one.base === null) unweighed++;
        const like = animals.filter(
          (other) => other.season === one.season && other.species === one.species && other.base !== null,
        );
        const usual =
          like.length === 0 ? 45_359.237 : like.reduce((sum, { base }) => sum + (base ?? 0), 0) / like.length;
        all += one.base ?? usual;
      }
      let trim = 0;
      for (const one of own) {
        if (!['hanging', 'cutting', 'packing'].includes(one.stage)) continue;
        const rows = (ofAnimal.get(one.id) ?? []).filter(({ part }) => part === 'trim');
        const sum = (stage: string) =>
          rows.filter((row) => row.stage === stage).reduce((total, row) => total + row.grams, 0);
        trim += Math.max(0, sum('cut') - sum('grinder'));
      }
      const batches = doneIn(filter.season ?? 0);
      const usual =
        batches.length === 0 ? 13_607.7711 : batches.reduce((sum, one) => sum + one, 0) / batches.length;
      expect(backlog).toMatchObject({ animals: uncut.length, unweighed });
      expect(backlog.grams).toBeCloseTo(grams, 4);
      expect(backlog.hours).toBeCloseTo(
        (uncut.length * cutting.minutesPerAnimal + (all / 1000) * cutting.minutesPerKg) / 60,
        6,
      );
      expect(backlog.trimGrams).toBeCloseTo(trim, 4);
      expect(backlog.grindHours).toBeCloseTo(
        (Math.ceil(trim / usual - 1e-12) * grinding.minutesPerAnimal +
          (trim / 1000) * grinding.minutesPerKg) /
          60,
        6,
      );
    }
  });
});

/** Local day on which each animal left the hook; null for one that still hangs. */
function leftDays(db: Database.Database, animals: readonly RawAnimal[]): Map<number, string | null> {
  const disposed = new Map(
    (
      db.prepare('SELECT animal_id, disposed_on FROM disposal').all() as {
        animal_id: number;
        disposed_on: string;
      }[]
    ).map((one) => [one.animal_id, one.disposed_on]),
  );
  const first = new Map<number, { cut?: string; ground?: string }>();
  for (const { animal_id: id, stage, at } of standingWeighings(db)) {
    if (id === null) continue;
    const of = first.get(id) ?? {};
    if (['primal', 'cut', 'packed'].includes(stage) && (of.cut === undefined || at < of.cut)) of.cut = at;
    if (stage === 'grinder' && (of.ground === undefined || at < of.ground)) of.ground = at;
    first.set(id, of);
  }
  const local = new Intl.DateTimeFormat('en-CA', {
    timeZone: ZONE,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  });
  return new Map(
    animals.map((one) => {
      const at = first.get(one.id)?.cut ?? first.get(one.id)?.ground;
      const days: string[] = [];
      if (at !== undefined) days.push(local.format(new Date(at)));
      if (one.stage === 'disposed') days.push(disposed.get(one.id) ?? '9999');
      if (one.readyOn !== null) days.push(one.readyOn);
      const day = days.sort()[0];
      if (day !== undefined) return [one.id, day < one.receivedOn ? one.receivedOn : day];
      return [one.id, one.stage === 'hanging' || one.stage === 'cutting' ? null : one.receivedOn];
    }),
  );
}
