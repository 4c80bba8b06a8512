/** What a season brought and cost, against plain loops over raw rows: bills, lines, weighings, batches and lots. */
import productsJson from '../../../resources/products.json' with { type: 'json' };
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CallInput, CallName, CallOutput, CostingView } from '../../../src/bridge/contract.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { demoAt } from '../../demo-copy.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { writeRandomSeasons } from './random-season.ts';
import {
  rawAnimals,
  rawQuantile,
  standingWeighings,
  type RawAnimal,
  type RawWeighing,
} from './raw-season.ts';

// As many as the years that days of the trade can lie in.
const RANDOM_SEASONS = 149;
/** A busy machine writes two hundred seasons slowly. */
const HOOK_MS = 240_000;
const POUND = 453.59237;
const SERVICE_OF: Record<string, string> = {
  animal: 'cutting', hanging: 'cutting', ground: 'grinding', product: 'products', fat: 'fat', extra: 'extras',
}; // prettier-ignore

interface RawBill {
  id: number;
  animal_id: number;
  amounts: string;
  subtotal_minor: number;
  currency: string;
  price_book_id: number;
}
interface RawLine {
  bill_id: number;
  basis: string;
  amount_minor: number;
}
interface RawAmounts {
  hangingGrams: number;
  groundGrams: number;
  products?: Record<string, number>;
  kinds?: Record<string, string>;
  fats?: Record<string, number>;
}

const folder = mkdtempSync(join(tmpdir(), 'gambrel-money-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What goes through the grinder, by the list that the program comes with. */
const GROUND = new Set(
  (JSON.parse(readFileSync('resources/products.json', 'utf8')) as { name: string; kind: string }[]).flatMap(
    ({ name, kind }) => (kind === 'grind' || kind === 'sausage' ? [name] : []),
  ),
);

describe.each([
  ['the demo', [2024, 2025, 2026]],
  ['random seasons', Array.from({ length: RANDOM_SEASONS }, (_, i) => 1950 + i)],
])('the money of %s', (name, years) => {
  const path = join(folder, `${years.length}.gambrel`);
  let desk: Desk;
  let db: Database.Database;
  let animals: Map<number, RawAnimal[]>;
  let weighings: RawWeighing[];
  let bills: Map<number | undefined, RawBill[]>;
  let priced: Set<string>;

  beforeAll(async () => {
    if (name === 'the demo') {
      await demoAt(path);
    } else writeRandomSeasons(path, RANDOM_SEASONS, 815, 10);
    desk = await openDesk({ bookPath: path, clock: () => DEMO_NOW });
    db = new Database(path, { readonly: true });
    const all = rawAnimals(db);
    animals = Map.groupBy(all, ({ season }) => season);
    weighings = standingWeighings(db);
    const seasonOf = new Map(all.map(({ id, season }) => [id, season]));
    const voided = new Set(
      (db.prepare('SELECT bill_id FROM bill_void').all() as { bill_id: number }[]).map((one) => one.bill_id),
    );
    const standing = (db.prepare('SELECT * FROM bill ORDER BY id').all() as RawBill[]).filter(
      ({ id, currency }) => !voided.has(id) && currency === 'USD',
    );
    bills = Map.groupBy(standing, (bill) => seasonOf.get(bill.animal_id));
    const { lines } = await call('prices.get', {});
    const nameOf = (code: string) => productsJson.find((one) => one.code === code)?.name ?? code;
    priced = new Set(lines.flatMap(({ products }) => products.map(nameOf)));
  }, HOOK_MS);
  afterAll(() => {
    db.close();
    desk.close();
  });

  async function call<N extends CallName>(to: N, input: CallInput<N>): Promise<CallOutput<N>> {
    const answer = await desk.call(to, input);
    if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
    return answer.value as CallOutput<N>;
  }
  const looks = async (): Promise<CostingView[]> =>
    Promise.all(years.map((season) => call('costing.get', { season })));
  const billsOf = (season: number): RawBill[] => bills.get(season) ?? [];
  const middle = (values: readonly number[]): number => rawQuantile(values, 0.5);
  const service = (look: CostingView, code: string) => {
    const found = look.services.find((one) => one.code === code);
    if (!found) throw new Error(code);
    return found;
  };
  const figure = (look: CostingView, code: string, what: string) => {
    const found = service(look, code).measured.find((one) => one.figure === what);
    if (!found) throw new Error(what);
    return found;
  };

  it('sums the bills, by service and by species', async () => {
    const lines = Map.groupBy(
      db.prepare('SELECT * FROM bill_line').all() as RawLine[],
      (line) => line.bill_id,
    );
    for (const look of await looks()) {
      const own = billsOf(look.season);
      expect(look.billed).toBe(own.length);
      const income: Record<string, number> = {};
      const species: Record<string, { animals: number; minor: number }> = {};
      for (const bill of own) {
        for (const { basis, amount_minor } of lines.get(bill.id) ?? []) {
          const group = SERVICE_OF[basis] ?? 'whole';
          income[group] = (income[group] ?? 0) + amount_minor;
        }
        const code = animals.get(look.season)?.find(({ id }) => id === bill.animal_id)?.species ?? '';
        const row = (species[code] ??= { animals: 0, minor: 0 });
        row.animals++;
        row.minor += bill.subtotal_minor;
      }
      expect(Object.fromEntries(look.income.map(({ code, minor }) => [code, minor]))).toEqual(income);
      expect(
        Object.fromEntries(
          look.species.map(({ code, animals: n, incomeMinor: minor }) => [code, { animals: n, minor }]),
        ),
      ).toEqual(species);
      expect(look.fat.chargedMinor).toBe(income.fat ?? 0);
    }
  });

  it('sums the bought fat that was ground and its cost', async () => {
    const lots = new Map(
      (
        db.prepare('SELECT * FROM fat_lot').all() as {
          id: number;
          cost_minor: number | null;
          cost_unit: string | null;
        }[]
      ).map((lot) => [lot.id, lot]),
    );
    const added = Map.groupBy(
      weighings.filter(({ part }) => part === 'fat added'),
      (row) => row.batch_id,
    );
    for (const look of await looks()) {
      let [used, unpriced, cost] = [0, 0, 0];
      // Of unfinished batches too: their fat is bought and ground.
      for (const { id } of batches(db, look.season))
        for (const { grams, fat_lot_id: lotId } of added.get(id) ?? []) {
          const lot = lots.get(lotId ?? 0);
          used += grams;
          if (!lot || lot.cost_minor === null) unpriced += grams;
          else cost += (lot.cost_minor * grams) / (lot.cost_unit === 'lb' ? POUND : 1000);
        }
      expect(look.fat.usedGrams).toBeCloseTo(used, 4);
      expect(look.fat.unpricedGrams).toBeCloseTo(unpriced, 4);
      expect(look.fat.cost).toBeCloseTo(cost, 4);
    }
  });

  it('measures cutting and grinding by the median animal and batch', async () => {
    const packages = db.prepare('SELECT id, product FROM weighing').all() as {
      id: number;
      product: string | null;
    }[];
    const productOf = new Map(packages.map(({ id, product }) => [id, product]));
    const ofAnimal = Map.groupBy(weighings, (row) => row.animal_id);
    const ofBatch = Map.groupBy(weighings, (row) => row.batch_id);
    const sum = (rows: readonly RawWeighing[], of: (row: RawWeighing) => boolean): number => {
      let total = 0;
      for (const row of rows) if (of(row)) total += row.grams;
      return total;
    };
    for (const look of await looks()) {
      const known = (animals.get(look.season) ?? []).filter(
        ({ finished, base, takeHome }) =>
          finished && base !== null && takeHome !== null && takeHome > 0 && takeHome < base,
      );
      expect(figure(look, 'cutting', 'received').from).toBe(known.length);
      if (known.length > 0) {
        expect(figure(look, 'cutting', 'received').value).toBeCloseTo(
          middle(known.map(({ base }) => base ?? 0)),
          4,
        );
        expect(figure(look, 'cutting', 'shrink').value).toBeCloseTo(
          1 - middle(known.map(({ base, takeHome }) => (takeHome ?? 0) / (base ?? 1))),
          9,
        );
        const shares = known.map(({ id, takeHome }) => {
          const cuts = sum(
            ofAnimal.get(id) ?? [],
            (row) => row.stage === 'packed' && !GROUND.has(productOf.get(row.id) ?? ''),
          );
          return Math.min(1, cuts / (takeHome ?? 1));
        });
        expect(figure(look, 'cutting', 'packedShare').value).toBeCloseTo(middle(shares), 9);
      }
      const ingredients = db.prepare<[number], number>(
        `SELECT coalesce(sum(grams), 0.0) FROM made_weighed w JOIN made_batch m ON m.id = w.made_id WHERE m.batch_id = ?
           AND w.id NOT IN (SELECT weighed_id FROM made_weighed_void) AND m.id NOT IN (SELECT made_id FROM made_batch_void)`,
      ).pluck(); // prettier-ignore
      const grinds = doneBatches(db, look.season).flatMap(({ id, product }) => {
        const rows = ofBatch.get(id) ?? [];
        const own = sum(rows, (row) => row.stage === 'grinder' && row.part !== 'fat added');
        const fat = sum(rows, (row) => row.part === 'fat added');
        const out = sum(rows, (row) => row.stage === 'packed');
        const most = (own + fat + (ingredients.get(id) ?? 0)) * 1.02;
        return own > 0 && out > fat && out <= most ? [{ product, own, fat, out }] : [];
      });
      for (const [code, some] of [
        ['grinding', grinds.filter(({ product }) => !priced.has(product))],
        ['products', grinds.filter(({ product }) => priced.has(product))],
      ] as const) {
        expect(figure(look, code, 'received').from).toBe(some.length);
        if (some.length === 0) continue;
        expect(figure(look, code, 'received').value).toBeCloseTo(middle(some.map(({ own }) => own)), 4);
        expect(figure(look, code, 'shrink').value).toBeCloseTo(
          middle(some.map(({ own, fat, out }) => Math.max(0, 1 - (out - fat) / own))),
          9,
        );
        const [fat, out] = [
          some.reduce((all, one) => all + one.fat, 0),
          some.reduce((all, one) => all + one.out, 0),
        ];
        expect(figure(look, code, 'boughtFatShare').value).toBeCloseTo(fat / out, 9);
      }
    }
  });

  it('computes the cost of every billed animal from its own weights', async () => {
    for (const look of await looks()) {
      const { wagePerHour, overheadPerHour, packagingPerPackage, services } = look.figures;
      const share = figure(look, 'cutting', 'packedShare').value;
      const job = (
        code: 'cutting' | 'grinding' | 'products',
        received: number,
        finished: number,
        packs: number,
      ): number => {
        const minutes = services[code].minutesPerAnimal + (services[code].minutesPerKg * received) / 1000;
        return (
          (minutes / 60) * (wagePerHour + overheadPerHour) +
          packs * packagingPerPackage * (finished > 0 ? 1 : 0)
        );
      };
      const cost = { cutting: 0, grinding: 0, products: 0, fat: 0 };
      const typical = service(look, 'products');
      const typicalOwn =
        figure(look, 'products', 'received').value * (1 - figure(look, 'products', 'shrink').value);
      const typicalOut = typicalOwn / (1 - figure(look, 'products', 'boughtFatShare').value);
      const productPerKg =
        (job(
          'products',
          figure(look, 'products', 'received').value,
          typicalOut,
          Math.ceil(typicalOut / services.products.packageGrams - 1e-9),
        ) /
          typicalOut) *
        1000;
      expect(typical.finishedGrams).toBeCloseTo(typicalOut, 4);
      const pricedFat = look.fat.usedGrams - look.fat.unpricedGrams;
      const fatPerKg = pricedFat > 0 ? (look.fat.cost * 1000) / pricedFat : 441;
      for (const bill of billsOf(look.season)) {
        const {
          hangingGrams,
          groundGrams,
          products = {},
          kinds = {},
          fats = {},
        } = JSON.parse(bill.amounts) as RawAmounts;
        let [ground, product, fat] = [groundGrams, 0, 0];
        for (const [what, grams] of Object.entries(products)) {
          // By code and with its kind; whole cuts in their packages are part of the cutting.
          const name = productsJson.find(({ code }) => code === what)?.name ?? what;
          if (priced.has(name)) product += grams;
          else if (kinds[what] === 'grind') ground += grams;
          else if (kinds[what] && kinds[what] !== 'whole cuts' && kinds[what] !== 'other') product += grams;
        }
        for (const grams of Object.values(fats)) fat += grams;
        if (hangingGrams > 0) {
          const finished = hangingGrams * (1 - figure(look, 'cutting', 'shrink').value);
          const packs = share > 0 ? Math.ceil(finished / (services.cutting.packageGrams / share) - 1e-9) : 0;
          cost.cutting += job('cutting', hangingGrams, finished, packs);
        }
        if (ground > 0) {
          const bought = Math.min(0.95, fat / (ground + product));
          const trim = (ground * (1 - bought)) / (1 - figure(look, 'grinding', 'shrink').value);
          cost.grinding += job(
            'grinding',
            trim,
            ground,
            Math.ceil(ground / services.grinding.packageGrams - 1e-9),
          );
        }
        cost.products += (product / 1000) * (productPerKg + look.figures.ingredientsPerKg);
        cost.fat += (fat / 1000) * fatPerKg;
      }
      for (const work of ['cutting', 'grinding', 'products', 'fat'] as const)
        expect(look.workCost[work], `${work} ${look.season}`).toBeCloseTo(cost[work], 3);
      const all = cost.cutting + cost.grinding + cost.products + cost.fat;
      expect(look.species.reduce((total, one) => total + one.cost, 0)).toBeCloseTo(all, 2);
    }
  });

  // Bills of random seasons were not made by any prices.
  it.runIf(name === 'the demo')(
    'takes from the bills of today’s prices what pricing them anew takes',
    async () => {
      const before = await looks();
      const { id, validFrom, taxRule, ...prices } = await call('prices.get', {});
      const lines = prices.lines as CallInput<'prices.save'>['lines'];
      expect(billsOf(2026).some((bill) => bill.price_book_id === id)).toBe(true);
      expect(service(before.at(-1) as CostingView, 'grinding').fee?.service).toBeGreaterThan(0);
      // The same prices as a new book: now no bill was made with the prices in force, and each is priced anew.
      await call('prices.save', { name: 'The same', validFrom, lines, taxRule });
      const after = await looks();
      for (const [i, look] of after.entries())
        for (const { code, fee } of look.services) {
          const then = service(before[i] as CostingView, code).fee;
          if (then === null) expect(fee).toBeNull();
          else
            expect(fee).toEqual({
              service: expect.closeTo(then.service, 9) as number,
              fat: expect.closeTo(then.fat, 9) as number,
              bills: then.bills,
            });
        }
    },
  );
});

function doneBatches(db: Database.Database, season: number): { id: number; product: string }[] {
  return batches(db, season).filter(({ state }) => state === 'done');
}

function batches(db: Database.Database, season: number): { id: number; product: string; state: string }[] {
  return db.prepare('SELECT id, product, state FROM batch WHERE season = ?').all(season) as {
    id: number;
    product: string;
    state: string;
  }[];
}
