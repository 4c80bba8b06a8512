import * as v from 'valibot';
import type { OpenBalanceRecord } from '../../book/records/money/open-balances.ts';
import { daysBetween } from '../../core/values/dates.ts';
import { animalOf } from '../animal/closed.ts';
import { hunterOf } from '../animal/hunters.ts';
import { packagesOf } from '../animal/packages.ts';
import type { AnimalStage, OpenAccount, OpenAnimal, Statement } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, id, needed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { isLongBook } from '../session/make-backup.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';

/** Every bill of the book is read, so the worker does it where there are many. */
const long = { when: isLongBook, onlyReads: true };

/** Who owes what, since when, the oldest bill first; and whose bill was paid over. */
export const listOwed = read(
  v.object({}),
  (session): OpenAccount[] => accountsOf(session, session.book.openBalances.list()),
  false,
  long,
);

/**
 * What a hunter's open balances are made of, document by document, with the balance after each.
 * @throws ProblemError `hunter.unknown`
 */
export const getStatement = read(
  v.object({ hunterId: id }),
  (session, input): Statement => {
    const { name, address, phone } = hunterOf(session, input.hunterId);
    const open = session.book.openBalances.list().filter((row) => row.hunter_id === input.hunterId);
    const documents = session.book.openBalances.documents(open.map(({ animal_id }) => animal_id));
    const currencies = [...new Set(documents.map(({ currency }) => currency))].sort();
    return {
      hunterId: input.hunterId,
      hunter: name,
      address,
      phone,
      on: session.today(),
      accounts: currencies.map((currency) => {
        let balanceMinor = 0;
        const lines = documents
          .filter((one) => one.currency === currency)
          .map(({ date, what, number, ticket, minor }) => {
            balanceMinor += minor;
            return { date, what, number, ticket, minor, balanceMinor };
          });
        return { currency, lines, dueMinor: balanceMinor };
      }),
    };
  },
  false,
  long,
);

/**
 * Keeps that a hunter was reminded of an open balance, wherever the animal is.
 * @throws ProblemError `animal.unknown`, `reminder.settled`, `note.too-many` (refused)
 */
export const saveReminder = write(v.object({ animalId: id, text: needed(500), by }), (session, input) => {
  const animal = animalOf(session, input.animalId);
  const standing = session.book.bills.ofAnimal(animal.id).find((bill) => bill.void_at === null);
  if (!standing || standing.total_minor <= session.book.payments.paid(animal.id))
    throw new ProblemError('refused', 'reminder.settled', { with: { ticket: animal.ticket } });
  refuseMoreOfAnimal(session, animal, 'note');
  const note = { animalId: animal.id, text: input.text, at: session.now(), by: input.by };
  return { id: session.book.callNotes.add(note) };
});

function accountsOf(session: Session, rows: readonly OpenBalanceRecord[]): OpenAccount[] {
  return [...Map.groupBy(rows, ({ hunter_id }) => hunter_id)].map(([hunterId, of]) => {
    const animals = of.map((row) => openAnimal(session, row));
    const currencies = [...new Set(animals.map(({ currency }) => currency))].sort();
    return {
      hunterId,
      hunter: of[0]?.hunter ?? '',
      phone: of[0]?.phone ?? '',
      animals,
      due: currencies.map((currency) => ({
        currency,
        dueMinor: animals
          .filter((one) => one.currency === currency)
          .reduce((sum, { dueMinor }) => sum + dueMinor, 0),
      })),
    };
  });
}

function openAnimal(session: Session, row: OpenBalanceRecord): OpenAnimal {
  const packages =
    row.stage === 'ready'
      ? packagesOf(
          session,
          { id: row.animal_id, ticket: row.ticket },
          session.book.weighings.ofAnimal(row.animal_id),
        )
      : [];
  const [call] = session.book.callNotes.ofAnimal(row.animal_id);
  return {
    animalId: row.animal_id,
    ticket: row.ticket,
    speciesName: session.species.of(row.species).name,
    stage: row.stage as AnimalStage,
    bill: row.bill,
    billedOn: row.billed_on,
    ageDays: Math.max(0, daysBetween(row.billed_on, session.today())),
    currency: row.currency,
    totalMinor: row.total_minor,
    paidMinor: row.paid_minor,
    dueMinor: row.total_minor - row.paid_minor,
    packages: packages.reduce((sum, { count }) => sum + count, 0),
    grams: packages.reduce((sum, { grams }) => sum + grams, 0),
    lastCall: call ? { text: call.text, at: call.at, by: call.by } : null,
  };
}
