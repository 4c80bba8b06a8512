/**
 * Does the quoted price hold 8 in 10 bills of what recipes make? In made-up shops, one elk and one batch of each recipe a shop: its quote is
 * that of the desk, its bill is worked out from what the animal gave and what the batches kept.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CallInput, CallName, CallOutput } from '../../src/bridge/contract.ts';
import { openRecordBook } from '../../src/book/book.ts';
import { learnLoss, type LossBatch } from '../../src/core/loss/loss.ts';
import { seededRandom } from '../../src/core/stats/random.ts';
import { GRAMS_PER } from '../../src/core/values/units.ts';
import { predictDraws } from '../../src/core/yield/yield.ts';
import type { RecipeBody } from '../../src/desk/contract/contract.ts';
import { openDesk } from '../../src/desk/desk.ts';
import { calculateQuote, type QuoteInput } from '../../src/desk/quotes/calculate.ts';
import { createSession, type Session } from '../../src/desk/session/session.ts';
import { PLAIN } from '../desk/recipes/recipe-of.ts';
import { KINDS, openLossShop, type LossWorld } from './loss-world.ts';

const STARTED = new Date('2026-10-10T15:00:00Z');
const HANGING_LB = 400;
const CUTS_SHARE = 0.4;
/** What an order asks for besides whole cuts: pounds of trim for sticks, and whether the rest is made into summer sausage. */
export const ORDERS = {
  'some sticks': { sticks: 30, rest: 'Ground' },
  'all of it sausage': { sticks: 0, rest: 'Summer sausage' },
  'sticks and sausage': { sticks: 30, rest: 'Summer sausage' },
} as const;
export type Order = keyof typeof ORDERS;

/** Products by their number in a shop of `loss-world.ts`. */
const STICKS = { product: 'Snack sticks', kind: 'sticks', number: 0, minor: 600, trimShare: 0.75 } as const;
const SAUSAGE = {
  product: 'Summer sausage',
  kind: 'cooked',
  number: 2,
  minor: 500,
  trimShare: 0.6,
} as const;
const CUTTING_MINOR = 110;
const PORK_MINOR = 250;
/** Batches of its other products that a shop weighed. */
const OTHERS = 9;

/** A shop with the two recipes and prices for them. */
export interface MadeShop {
  readonly session: Session;
  readonly recipes: ReadonlyMap<number, number>;
  close(): void;
}

export async function openMadeShop(): Promise<MadeShop> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-made-bills-'));
  const path = join(folder, 'shop.gambrel');
  const recipes = await setUp(path);
  const book = openRecordBook(path, STARTED, true);
  const stay = (): Promise<Session> => Promise.resolve(session);
  const host = { openDemo: stay, leaveDemo: stay };
  const session = createSession({ book, demo: false, clock: () => STARTED, host });
  return {
    session,
    recipes,
    close() {
      book.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Begins the book; its recipes by the number of their product. */
async function setUp(bookPath: string): Promise<Map<number, number>> {
  const desk = await openDesk({ bookPath, clock: () => STARTED });
  const call = async <N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> => {
    const answer = await desk.call(name, input);
    if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.problem)}`);
    return answer.value as CallOutput<N>;
  };
  await call('shop.setUp', { shopName: 'Calibrated', unit: 'lb' });
  const recipes = new Map<number, number>();
  for (const { product, kind, number, trimShare } of [STICKS, SAUSAGE]) {
    const body: RecipeBody = {
      ...PLAIN,
      meat: [
        { kind: 'game', name: 'Game', share: trimShare, fat: null },
        { kind: 'pork', name: 'Pork', share: 1 - trimShare, fat: 0.5 },
      ],
      finish: 'cooked',
      lossKind: kind,
    };
    recipes.set(number, (await call('recipes.save', { name: product, product, body })).id);
  }
  const line = { rate: null, unit: 'lb', species: null, brought: null, fatSource: null, taxRate: 0 } as const;
  await call('prices.save', {
    name: 'Prices',
    validFrom: '2026-10-01',
    lines: [
      { ...line, code: 'cutting', label: 'Cutting', basis: 'hanging', amountMinor: CUTTING_MINOR },
      { ...line, code: 'pork', label: 'Pork', basis: 'fat', amountMinor: PORK_MINOR, fatSource: 'pork-trim-50' },
      ...[STICKS, SAUSAGE].map(({ product, kind, minor }) => ({
        ...line, code: kind, label: product, basis: 'product' as const, amountMinor: minor, products: [product],
      })),
    ],
  }); // prettier-ignore
  desk.close();
  return recipes;
}

export interface BillCoverage {
  readonly shops: number;
  readonly inside: number;
  readonly below: number;
  /** Mean width of the quoted price, as a share of its most likely value. */
  readonly width: number;
}

/** Of so many shops that weighed so many batches of each product, how many billed within what they had quoted. */
export function billCoverage(
  { session, recipes }: MadeShop,
  world: LossWorld,
  order: Order,
  { weighed, shops, seed }: { weighed: number; shops: number; seed: number },
): BillCoverage {
  const asked = orderOf(order);
  const group = { species: asked.species, brought: asked.brought, sex: asked.sex, age: asked.age };
  const hangingGrams = HANGING_LB * GRAMS_PER.lb;
  const { model, cutsOff } = session.yields;
  const animals = predictDraws(model, {
    hangingGrams, group, cutsShare: CUTS_SHARE, cutsDeviation: cutsOff, level: 0.8, seed: seed * 7919 + 5, draws: Math.max(100, shops),
  }); // prettier-ignore
  let [inside, below, width] = [0, 0, 0];
  for (let shop = 0; shop < shops; shop++) {
    const next = openLossShop(world, seededRandom(seed * 1_000_003 + shop));
    const named = (batch: LossBatch, number: number): LossBatch => ({
      ...batch,
      product: String(recipes.get(number) ?? batch.product),
    });
    const seen = [
      ...[STICKS, SAUSAGE].flatMap(({ number }) =>
        Array.from({ length: weighed }, () => named(next(number), number)),
      ),
      ...Array.from({ length: OTHERS }, (_, i) => next(i % 2 === 0 ? 1 : 3)),
    ];
    const then = Object.create(session, {
      losses: { value: { model: learnLoss(seen, KINDS), batches: [], lots: seen } },
    }) as Session;
    const { price } = calculateQuote(then, asked);
    if (!price) throw new Error('no price');
    const kept = ({ number }: { number: number }): number => {
      const { inGrams, outGrams } = next(number);
      return outGrams / inGrams;
    };
    const bill = billOf(order, (animals.parts.trim[shop] ?? 0) / GRAMS_PER.lb, {
      sticks: kept(STICKS),
      sausage: kept(SAUSAGE),
    });
    if (bill < price.low) below++;
    else if (bill <= price.high) inside++;
    width += (price.high - price.low) / price.mean;
  }
  return { shops, inside, below, width: width / shops };
}

/** In minor units, of so many pounds of trim; recipes of these shops add nothing but pork. */
function billOf(order: Order, trim: number, kept: { sticks: number; sausage: number }): number {
  const { sticks, rest } = ORDERS[order];
  const forSticks = Math.min(sticks, trim);
  const forSausage = rest === SAUSAGE.product ? trim - forSticks : 0;
  const block = { sticks: forSticks / STICKS.trimShare, sausage: forSausage / SAUSAGE.trimShare };
  const pork = block.sticks - forSticks + block.sausage - forSausage;
  return (
    Math.round(HANGING_LB * CUTTING_MINOR) +
    Math.round(pork * PORK_MINOR) +
    Math.round(block.sticks * kept.sticks * STICKS.minor) +
    Math.round(block.sausage * kept.sausage * SAUSAGE.minor)
  );
}

function orderOf(order: Order): QuoteInput {
  const { sticks, rest } = ORDERS[order];
  const grind = { fat: 'none', targetFat: null, pattyGrams: null } as const;
  return {
    species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', parts: [], stage: 'hanging', typed: `${HANGING_LB} lb`, adjustments: [],
    instructions: {
      ...grind, primals: [], cutsShare: CUTS_SHARE, grindProduct: rest, packageGrams: GRAMS_PER.lb, extras: [], pricedExtras: {}, note: '',
      alsoGround: sticks > 0 ? [{ ...grind, product: STICKS.product, grams: sticks * GRAMS_PER.lb }] : [],
    },
  }; // prettier-ignore
}
