import * as v from 'valibot';
import { daysBetween } from '../../core/values/dates.ts';
import { animalOf } from '../animal/closed.ts';
import { hunterCard, hunterOf } from '../animal/hunters.ts';
import type { AnimalStage, OpenAccount, OpenAnimal, Statement } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, id, needed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { isLongBook } from '../session/make-backup.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { balancesOf, documentsOf, packagesHere, type Balance } from './balances.ts';

/** Reads every bill of the book, so a long book uses the worker. */
const long = { when: isLongBook, onlyReads: true };

/** Open balances, oldest bill first, and overpayments. */
export const listOwed = read(
  v.object({}),
  (session): OpenAccount[] => accountsOf(session, balancesOf(session)),
  false,
  long,
);

/**
 * The documents behind a hunter's open balances, with the balance after each.
 * @throws ProblemError `hunter.unknown`
 */
export const getStatement = read(
  v.object({ hunterId: id }),
  (session, input): Statement => {
    const { name, address, phone, language } = hunterCard(hunterOf(session, input.hunterId));
    const open = balancesOf(session).filter((one) => one.hunterId === input.hunterId);
    const documents = documentsOf(session, open, input.hunterId);
    const currencies = [...new Set(documents.map(({ currency }) => currency))].sort();
    return {
      hunterId: input.hunterId,
      hunter: name,
      language,
      address,
      phone,
      on: session.today(),
      accounts: currencies.map((currency) => {
        let balanceMinor = 0;
        const lines = documents
          .filter((one) => one.currency === currency)
          .map(({ date, what, number, ticket, wholeMinor, minor }) => {
            balanceMinor += minor;
            return { date, what, number, ticket, wholeMinor, minor, balanceMinor };
          });
        return { currency, lines, dueMinor: balanceMinor };
      }),
    };
  },
  false,
  long,
);

/**
 * Records a payment reminder, wherever the animal is.
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

function accountsOf(session: Session, balances: readonly Balance[]): OpenAccount[] {
  return [...Map.groupBy(balances, ({ hunterId }) => hunterId)].map(([hunterId, of]) => {
    const animals = of.map((one) => openAnimal(session, one));
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

function openAnimal(session: Session, { row, part, hunterId, ...money }: Balance): OpenAnimal {
  const packages = row.stage === 'ready' ? packagesHere(session, row, part === null ? null : hunterId) : [];
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
    shared: part !== null,
    totalMinor: money.totalMinor,
    paidMinor: money.paidMinor,
    dueMinor: money.totalMinor - money.paidMinor,
    packages: packages.reduce((sum, { count }) => sum + count, 0),
    grams: packages.reduce((sum, { grams }) => sum + grams, 0),
    lastCall: call ? { text: call.text, at: call.at, by: call.by } : null,
  };
}
