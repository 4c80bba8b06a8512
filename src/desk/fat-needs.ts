/** How much of each bought fat the animals in the shop will still take, and the quotes that may come in. */
import * as v from 'valibot';
import type { HookRow } from '../book/animals.ts';
import { normalQuantile } from '../core/distributions.ts';
import { fatNeed, sumNeeds, toOrder, type NeedGuess } from '../core/fat-needs.ts';
import { predict } from '../core/yield.ts';
import { instructionsOf } from './animal-page.ts';
import { keepsOf } from './fat-keeps.ts';
import { CRUMB_GRAMS } from './fat-moves.ts';
import { grindWants } from './grind-wants.ts';
import { read } from './procedure.ts';
import type { QuoteAsked } from './quote-work.ts';
import { FATS } from './resources.ts';
import type { DeskRoom } from './room.ts';
import type { FatNeeds, GrindWant, Instructions, QuoteResult } from './shapes.ts';
import { baseGrams } from './take-home.ts';
import { LEVEL } from './yield-knowledge.ts';
import { groupOf } from './yield-observation.ts';

const SEED = 1;
/** Enough for a sum over many animals. */
const DRAWS = 500;
/** Half the width of a range that holds 8 in 10, in standard deviations. */
const REACH = normalQuantile((1 + LEVEL) / 2);
const QUOTES = 200;

/** What one animal, or one quote, will want of each fat, by the fat's code. */
type Wanted = Map<string, NeedGuess[]>;

export const needs = read(v.object({}), (room): FatNeeds => {
  const unweighed: string[] = [];
  const inShop: Wanted[] = [];
  for (const row of room.book.animals
    .inShop()
    .filter(({ stage, hold }) => stage !== 'ready' && hold !== 'positive')) {
    const trim = trimToCome(room, row);
    const orders = instructionsOf(room, row.id);
    if (trim === null) {
      if (wantsBought(orders)) unweighed.push(row.ticket);
    } else
      inShop.push(
        wantedOf(
          room,
          row,
          trim,
          grindWants(orders, room.book.sums.trimInto(row.id), trim.mean, CRUMB_GRAMS),
        ),
      );
  }
  const quoted = openQuotes(room);
  const sources = FATS.filter(({ animal }) => animal !== 'own').flatMap(({ code, name }) => {
    const of = (all: readonly Wanted[]) =>
      all.flatMap((wanted) => (wanted.get(code) ? [wanted.get(code) ?? []] : []));
    const [mine, theirs] = [of(inShop), of(quoted)];
    if (mine.length === 0 && theirs.length === 0) return [];
    const need = sumNeeds(mine, LEVEL);
    const onHandGrams = onHand(room, code);
    return [{
      source: code, name, animals: mine.length, need, onHandGrams, order: toOrder(need, onHandGrams),
      quotes: { count: theirs.length, need: sumNeeds(theirs, LEVEL) },
    }]; // prettier-ignore
  });
  return { sources, unweighed };
});

/** Trim of an animal that is not ground yet: weighed, or foretold while it is not cut; null while nothing was weighed. */
function trimToCome(room: DeskRoom, row: HookRow): { mean: number; sd: number } | null {
  const sums = room.book.weighings.sums(row.id);
  const left = Math.max(0, (sums?.trim ?? 0) - (sums?.trim_ground ?? 0));
  if (row.stage === 'packing') return { mean: left, sd: 0 };
  const base = baseGrams({
    brought: row.brought,
    hanging: sums?.hanging ?? null,
    received: sums?.received ?? null,
  });
  if (base === null) return sums?.trim ? { mean: left, sd: 0 } : null;
  const { trim } = predict(room.yields.model, {
    hangingGrams: base,
    group: groupOf(row),
    cutsShare: instructionsOf(room, row.id).cutsShare,
    level: LEVEL,
    seed: SEED,
    draws: DRAWS,
  }).parts;
  const weighed = sums?.trim ?? 0;
  // Once more is weighed than was foretold, the scale is believed.
  if (weighed >= trim.mean) return { mean: left, sd: 0 };
  const sd = (trim.high - trim.low) / (2 * REACH);
  return { mean: Math.max(0, trim.mean - (sums?.trim_ground ?? 0)), sd };
}

/** The rest of the trim is what is unsure; what has an amount of its own is not. */
function wantedOf(
  room: DeskRoom,
  animal: { id: number; species: string },
  trim: { mean: number; sd: number },
  wants: readonly GrindWant[],
): Wanted {
  const wanted: Wanted = new Map();
  const trimFat = room.fats.now.trim(animal);
  for (const [i, { fat, targetFat, grams }] of wants.entries()) {
    const source = FATS.find(({ code, animal: of }) => code === fat && of !== 'own');
    if (!source || targetFat === null || source.fat <= targetFat) continue;
    const rest = i === wants.length - 1;
    const need = fatNeed({
      trim: { mean: grams, sd: rest ? trim.sd : 0 },
      trimFat,
      fatFat: source.fat,
      target: targetFat,
    });
    wanted.set(source.code, [...(wanted.get(source.code) ?? []), need]);
  }
  return wanted;
}

/** Quotes that still hold and that no animal came of. */
function openQuotes(room: DeskRoom): Wanted[] {
  return room.book.quotes
    .recent(QUOTES)
    .filter((quote) => quote.valid_until >= room.today() && room.book.quotes.takenAs(quote.id) === undefined)
    .map((quote) => {
      const { instructions, species } = JSON.parse(quote.asked) as QuoteAsked;
      const { parts } = JSON.parse(quote.answered) as QuoteResult;
      const grams = parts.find(({ part }) => part === 'trim')?.grams ?? { low: 0, mean: 0, high: 0 };
      const trim = { mean: grams.mean, sd: (grams.high - grams.low) / (2 * REACH) };
      return wantedOf(room, { id: 0, species }, trim, grindWants(instructions, [], trim.mean, CRUMB_GRAMS));
    });
}

function wantsBought({ fat, alsoGround }: Instructions): boolean {
  const bought = (code: string): boolean => FATS.some((one) => one.code === code && one.animal !== 'own');
  return bought(fat) || alsoGround.some((also) => bought(also.fat));
}

function onHand(room: DeskRoom, source: string): number {
  return room.book.fat
    .withLeft(0)
    .filter((lot) => lot.animal_id === null && lot.source === source && keepsOf(room, lot) !== 'past')
    .reduce((total, { left_grams }) => total + left_grams, 0);
}
