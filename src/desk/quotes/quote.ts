import * as v from 'valibot';
import { addDays } from '../../core/values/dates.ts';
import { age, brought, by, id, instructions, needed, parts, sex, text, typed } from '../input/input.ts';
import { presentHunterOf } from '../animal/hunters.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { readLearned } from '../session/learned.ts';
import { read, write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import { answeredOf } from '../pricing/quote-saved.ts';
import { workQuote } from './work.ts';
import type { DeskRoom } from '../session/room.ts';
import type { QuoteResult, QuoteSaved } from '../contract/contract.ts';

const asked = {
  species: needed(40),
  sex: v.optional(sex, 'unknown'),
  age: v.optional(age, 'unknown'),
  brought,
  parts,
  stage: v.picklist(['live', 'dressed', 'legs off', 'hanging', 'parts'], 'choice.stage'),
  typed,
  instructions,
};
const RECENT = 30;

/** How much meat, in what packages, and what it will cost. */
export const work = readLearned(v.object(asked), (room, input): QuoteResult => workQuote(room, input));

/** Keeps a quote as it was given, with a number and a last day. */
export const save = write(
  v.object({ ...asked, hunterId: v.optional(v.nullable(id), null), hunterName: text(200), by }),
  (room, input): QuoteSaved => {
    const { by: initials, hunterId, hunterName, ...rest } = input;
    const name = hunterId === null ? hunterName : presentHunterOf(room, hunterId).name;
    const answered = workQuote(room, rest);
    const validUntil = addDays(room.today(), room.settings.quoteValidDays);
    const saved = room.book.quotes.add({
      season: room.season(),
      hunterId,
      hunterName: name,
      species: input.species,
      priceBookId: pricesInForce(room)?.id ?? null,
      asked: rest,
      answered,
      madeOn: room.today(),
      validUntil,
      at: room.now(),
      by: initials,
    });
    return { ...saved, validUntil };
  },
);

export const list = read(v.object({}), (room) =>
  room.book.quotes.recent(RECENT).map((quote) => quoteRow(room, quote)),
);

/** One saved quote with what was asked and answered, for taking the animal in and for paper. */
export const open = read(v.object({ id }), (room, input) => {
  const quote = room.book.quotes.get(input.id);
  if (!quote) throw new Trouble('missing', 'quote.unknown', { field: 'id' });
  return {
    ...quoteRow(room, quote),
    asked: JSON.parse(quote.asked) as v.InferOutput<typeof work.input>,
    answer: answeredOf(quote),
  };
});

function quoteRow(room: DeskRoom, quote: ReturnType<DeskRoom['book']['quotes']['recent']>[number]) {
  const answered = answeredOf(quote);
  return {
    id: quote.id,
    name: quote.name,
    hunter: quote.hunter_name,
    speciesName: room.species.of(quote.species).name,
    createdOn: quote.made_on,
    validUntil: quote.valid_until,
    low: answered.price?.low ?? null,
    high: answered.price?.high ?? null,
    currency: answered.price?.currency ?? null,
  };
}
