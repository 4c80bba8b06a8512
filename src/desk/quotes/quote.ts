import * as v from 'valibot';
import { addDays } from '../../core/values/dates.ts';
import { age, brought, by, id, instructions, needed, parts, sex, text, typed } from '../input/input.ts';
import { hunterCard, hunterOf, presentHunterOf } from '../animal/hunters.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { adjustmentsInput } from '../pricing/adjustments.ts';
import { answeredOf, promisedIn } from '../pricing/quote-saved.ts';
import { ordersRead } from '../animal/instructions.ts';
import { calculateQuote } from './calculate.ts';
import type { Session } from '../session/session.ts';
import type { QuoteResult, QuoteSaved } from '../contract/contract.ts';

const quoteInput = {
  species: needed(40),
  sex: v.optional(sex, 'unknown'),
  age: v.optional(age, 'unknown'),
  brought,
  parts,
  stage: v.picklist(['live', 'dressed', 'legs off', 'hanging', 'parts'], 'choice.stage'),
  typed,
  instructions,
  adjustments: v.optional(adjustmentsInput, []),
};
/** How many saved quotes are listed and found: those of the last month of a busy shop. Our choice. */
const RECENT = 200;

/** How much meat, in what packages, and the price. */
export const calculate = readAfterLearning(v.object(quoteInput), (session, input): QuoteResult =>
  calculateQuote(session, input),
);

/** Saves a quote with a number and a last valid day. */
export const save = write(
  v.object({ ...quoteInput, hunterId: v.optional(v.nullable(id), null), hunterName: text(200), by }),
  (session, input): QuoteSaved => {
    const { by: initials, hunterId, hunterName, ...rest } = input;
    const name = hunterId === null ? hunterName : presentHunterOf(session, hunterId).name;
    const answered = calculateQuote(session, rest);
    const validUntil = addDays(session.today(), session.settings.quoteValidDays);
    const saved = session.book.quotes.add({
      season: session.season(),
      hunterId,
      hunterName: name,
      species: input.species,
      priceBookId: pricesInForce(session)?.id ?? null,
      asked: rest,
      answered,
      madeOn: session.today(),
      validUntil,
      at: session.now(),
      by: initials,
    });
    return { ...saved, validUntil };
  },
);

export const list = read(v.object({}), (session) =>
  session.book.quotes.recent(RECENT).map((quote) => quoteRow(session, quote)),
);

/** One saved quote with its input and answer, for intake and print. */
export const get = read(v.object({ id }), (session, input) => {
  const quote = session.book.quotes.get(input.id);
  if (!quote) throw new ProblemError('missing', 'quote.unknown', { field: 'id' });
  return {
    ...quoteRow(session, quote),
    /** Of the hunter in the book for whom it is; '' for that of the shop. */
    language: quote.hunter_id === null ? '' : hunterCard(hunterOf(session, quote.hunter_id)).language,
    asked: askedOf(session, quote.asked),
    answer: answeredOf(quote),
  };
});

/** The input in its current form: older quotes lack quantities of extras and adjustments. */
function askedOf(session: Session, stored: string): v.InferOutput<typeof calculate.input> {
  const input = JSON.parse(stored) as v.InferOutput<typeof calculate.input>;
  return {
    ...input,
    instructions: ordersRead(session, input.instructions),
    adjustments: promisedIn(stored),
  };
}

function quoteRow(session: Session, quote: ReturnType<Session['book']['quotes']['recent']>[number]) {
  const answered = answeredOf(quote);
  return {
    id: quote.id,
    name: quote.name,
    hunter: quote.hunter_name,
    speciesName: session.species.of(quote.species).name,
    createdOn: quote.made_on,
    validUntil: quote.valid_until,
    low: answered.price?.low ?? null,
    high: answered.price?.high ?? null,
    currency: answered.price?.currency ?? null,
  };
}
