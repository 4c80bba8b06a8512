/** What the shop would have quoted for each of its animals on the day it came, held against what came of it. */
import type { Book } from '../../src/book/book.ts';
import type { MadeSums } from '../../src/book/records/smokehouse/made-weights.ts';
import type { YieldRow } from '../../src/book/sums/sums.ts';
import { GRAMS_PER } from '../../src/core/values/units.ts';
import { instructionsOf } from '../../src/desk/animal/instructions.ts';
import { DEMO_NOW } from '../../src/demo/season.ts';
import { lossKnowledge, type LossKnowledge } from '../../src/desk/learning/loss-learning.ts';
import { calculateQuote, type QuoteInput } from '../../src/desk/quotes/calculate.ts';
import { addedBesides } from '../../src/desk/quotes/kept-quotes.ts';
import { createSession, type Session } from '../../src/desk/session/session.ts';
import type { QuoteResult, Range } from '../../src/desk/contract/contract.ts';
import { baseGrams, wholeTakeHomeGrams } from '../../src/desk/learning/take-home.ts';
import { yieldKnowledge } from '../../src/desk/learning/yield-knowledge.ts';
import { binomialCounts } from './coverage.ts';

/** Quotes tell 8 in 10. */
export const QUOTED = 0.8;
/** What was told of its weight: as on the hook, or of a whole animal with its hide as it was received. */
export const TOLD = ['on the hook', 'as it came'] as const;
export type Told = (typeof TOLD)[number];

export interface BackTested {
  season: number;
  species: string;
  quotes: Record<Told, QuoteResult>;
  /** In grams, as it was packed: with the fat that was bought for it, and what the smokehouse made of it. */
  takeHome: number;
  /** The standing bill in minor units; null where none was made. */
  bill: number | null;
}

/**
 * Quotes that the shop would have given, in the order in which its finished animals came: with the yields, the fat
 * and the losses learned from what was finished before that day, the prices in force on it and the animal's own instructions.
 */
export function backTest(book: Book): BackTested[] {
  const session = demoRoom(book);
  const done = book.sums.finished().flatMap((row) => {
    const animal = book.animals.get(row.id);
    return animal?.ready_on ? [{ row, came: animal.received_on, ready: animal.ready_on }] : [];
  });
  const besides = addedBesides(
    session,
    done.map(({ row }) => row.id),
  );
  const days = [...Map.groupBy(done, ({ came }) => came)].sort(([a], [b]) => (a < b ? -1 : 1));
  return days.flatMap(([day, arrived]) => {
    const before = done.filter(({ ready }) => ready < day).map(({ row }) => row);
    const then = roomOn(session, day, before);
    return arrived.flatMap(({ row }) => {
      const own = wholeTakeHomeGrams(row);
      if (own === null) return [];
      const quote = (told: Told) => calculateQuote(then, askedOf(session, row, told));
      return {
        season: row.season,
        species: row.species,
        quotes: { 'on the hook': quote('on the hook'), 'as it came': quote('as it came') },
        takeHome: own + besides(row.id),
        bill: book.bills.ofAnimal(row.id).find(({ void_at }) => void_at === null)?.total_minor ?? null,
      };
    });
  });
}

function demoRoom(book: Book): Session {
  const stay = (): Promise<Session> => Promise.resolve(session);
  const host = { openDemo: stay, leaveDemo: stay };
  const session = createSession({ book, demo: true, clock: () => DEMO_NOW, host });
  return session;
}

function roomOn(session: Session, day: string, finished: readonly YieldRow[]): Session {
  const nextBatch = session.book.db
    .prepare<[string], number | null>('SELECT min(id) FROM batch WHERE started_on >= ?')
    .pluck()
    .get(day);
  const fats = { ...session.fats, now: nextBatch ? session.fats.before(nextBatch) : session.fats.now };
  return Object.create(session, {
    yields: { value: yieldKnowledge(finished, session.species.all) },
    losses: { value: lossesBefore(session.book, day) },
    fats: { value: fats },
    today: { value: () => day },
  }) as Session;
}

/** What batches taught that were packed before that day. */
function lossesBefore(book: Book, day: string): LossKnowledge {
  const packedBefore = ({ id }: MadeSums): boolean =>
    book.madeWeights.packages(id).every(({ at }) => at < day);
  return lossKnowledge(book, book.madeWeights.allSums().filter(packedBefore));
}

function askedOf(session: Session, row: YieldRow, told: Told): QuoteInput {
  const asItCame = told === 'as it came' && row.brought === 'whole' && row.received !== null;
  const grams = asItCame ? row.received : baseGrams(row);
  return {
    ...row,
    parts: session.book.animals.parts(row.id),
    stage: asItCame ? 'dressed' : 'hanging',
    typed: `${((grams ?? 0) / GRAMS_PER.lb).toFixed(4)} lb`,
    instructions: instructionsOf(session, row.id),
    adjustments: [],
  };
}

/** Whether a recipe makes part of it, whose loss is part of the range. */
export const hasRecipe = ({ quotes }: BackTested): boolean =>
  quotes['on the hook'].products.some(({ recipe }) => recipe !== null);

export interface Counted {
  n: number;
  inside: number;
  below: number;
  /** Within which an honest count of n falls 19 times in 20. */
  band: { low: number; high: number };
}

export function countTakeHome(tested: readonly BackTested[], told: Told): Counted {
  return counted(tested.map(({ quotes, takeHome }) => [quotes[told].takeHomeGrams, takeHome]));
}

/** Of the bills whose quote was a range: one that is a single figure, as a smallest charge is, says nothing of ranges. */
export function countBills(tested: readonly BackTested[], told: Told): Counted {
  return counted(
    tested.flatMap(({ quotes, bill }) => {
      const { price } = quotes[told];
      return price && bill !== null && price.low < price.high ? [[price, bill] as const] : [];
    }),
  );
}

function counted(results: readonly (readonly [Pick<Range, 'low' | 'high'>, number])[]): Counted {
  const n = results.length;
  return {
    n,
    inside: results.filter(([{ low, high }, value]) => low <= value && value <= high).length,
    below: results.filter(([{ low }, value]) => value < low).length,
    band: binomialCounts(QUOTED, n),
  };
}
