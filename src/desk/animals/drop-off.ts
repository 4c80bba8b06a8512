import * as v from 'valibot';
import { depositAsked } from '../../core/pricing/deposit.ts';
import { animalOf } from '../animal/closed.ts';
import { weighedAmounts } from '../bills/amounts.ts';
import { paymentRow } from '../bills/bill-page.ts';
import type { DropOff, Instructions } from '../contract/contract.ts';
import { id } from '../input/input.ts';
import { instructionsOf, ordersStatus } from '../animal/instructions.ts';
import { accountCurrency } from '../pricing/account.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { answeredOf } from '../pricing/quote-saved.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type { AnimalRow } from '../../book/records/animals.ts';

/** Orders, money and the suggested deposit on the drop-off receipt. @throws ProblemError `animal.unknown` */
export const getDropOff = read(v.object({ animalId: id }), (session, input): DropOff => {
  const animal = animalOf(session, input.animalId);
  const currency = accountCurrency(session, animal.id);
  const quote = quoteOf(session, animal);
  const paidMinor = session.book.payments.paid(animal.id);
  const requestedMinor = requestedDeposit(
    session,
    animal,
    currency,
    quote?.currency === currency ? quote.meanMinor : null,
  );
  return {
    animalId: animal.id,
    orders: ordersOf(session, animal.id),
    quote,
    payments: session.book.payments
      .ofAnimal(animal.id)
      .filter(({ void_at }) => void_at === null)
      .map(paymentRow),
    paidMinor,
    currency,
    depositMinor: Math.max(0, requestedMinor - paidMinor),
  };
});

function ordersOf(session: Session, animalId: number): Instructions | null {
  return ordersStatus(session, animalId) === 'not asked' ? null : instructionsOf(session, animalId);
}

function quoteOf(session: Session, animal: AnimalRow): DropOff['quote'] {
  const quote = session.book.quotes.ofAnimal(animal.id);
  const price = quote && answeredOf(quote).price;
  if (!quote || !price) return null;
  const { currency, low, mean, high } = price;
  return { name: quote.name, currency, lowMinor: low, meanMinor: mean, highMinor: high };
}

function requestedDeposit(
  session: Session,
  animal: AnimalRow,
  currency: string,
  expected: number | null,
): number {
  const prices = pricesInForce(session);
  if (prices?.currency !== currency) return 0;
  return depositAsked(prices.lines, weighedAmounts(session, animal).amounts, expected);
}
