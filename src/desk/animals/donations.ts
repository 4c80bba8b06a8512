/** Donations of meat through a program: a whole animal or a part of it. Donated meat is never sold. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import type { DonationRecord } from '../../book/records/of-animal/donations.ts';
import { compareDates } from '../../core/values/dates.ts';
import { fromGrams } from '../../core/values/units.ts';
import { parseReading, readingGrams } from '../../core/values/reading.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { packagesOf } from '../animal/packages.ts';
import { donatedGrams, gramsOf, takenParts } from '../animal/parts-here.ts';
import { openAnimalOf } from '../animal/closed.ts';
import { askFar, DISPOSED_DAYS, refuseFuture } from '../input/day-doubts.ts';
import { by, confirmedOf, id, needed, optionalDate, text, typed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { seasonYear } from '../session/season-filter.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { DonationRow, DonationsView } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { askBelongings } from './belongings-at-pickup.ts';
import { leave, refuseToGo } from './going.ts';

/** More donations than one shop makes in a season. */
const MAX_ROWS = 10_000;

/**
 * Donates packed meat to a program of the settings: part of it, or all, which releases the animal. Held meat waits
 * for its results. Unclaimed meat requires the last notice first.
 * @throws ProblemError `animal.closed`, `donation.program`, `donation.more`, `donation.not-noticed`,
 * `donation.before-received`, `donation.too-many`, `date.future`, and as `pickup.release` except for the bill;
 * `date.long-ago`, `release.belongings` (conflict)
 */
export const add = write(
  v.object({
    id,
    program: needed(80),
    whole: v.boolean('input.invalid'),
    typed,
    confirmation: text(80),
    why: v.optional(v.picklist(['hunter', 'unclaimed'], 'choice.why'), 'hunter'),
    on: optionalDate,
    note: text(300),
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const animal = openAnimalOf(session, input.id);
    refuseToGo(session, animal);
    refuseMoreOfAnimal(session, animal, 'donation');
    const program = session.settings.donationPrograms.find(({ name }) => name === input.program);
    if (!program)
      throw new ProblemError('invalid', 'donation.program', {
        field: 'program',
        with: { program: input.program },
      });
    if (input.why === 'unclaimed' && !lastNotice(session, animal.id))
      throw new ProblemError('refused', 'donation.not-noticed', { with: { ticket: animal.ticket } });
    const on = input.on ?? session.today();
    refuseFuture(on, session.today(), 'on');
    if (compareDates(on, animal.received_on) < 0)
      throw new ProblemError('invalid', 'donation.before-received', { field: 'on' });
    askFar(input.confirmed, 'on', on, session.today(), { ago: DISPOSED_DAYS });
    const reading = parseReading(input.typed, session.settings.unit);
    const grams = readingGrams(reading);
    refuseMore(session, animal, grams);
    const { whole, confirmation, why, note, by: initials } = input;
    const { paysMinor, paysUnit } = program;
    const { currency } = session.settings;
    if (whole) askBelongings(session, animal, { belongings: [], confirmed: input.confirmed });
    const at = session.now();
    const donationId = session.book.donations.add({
      animalId: animal.id, program: program.name, whole, reading, grams, confirmation, paysMinor, paysUnit, currency, on, why, note, at, by: initials,
    }); // prettier-ignore
    if (whole) {
      const parts = session.book.shares.pickups(animal.id).map(({ given_to: to }) => to);
      const to = [...new Set([...parts, program.name])].join(', ').slice(0, 200);
      leave(session, animal, { to, on, note: confirmation, unpaidBy: null, at, by: initials });
    }
    return { id: donationId };
  },
);

/**
 * Voids a donation. If the animal left with it, reopen the animal instead. @throws ProblemError `donation.unknown`,
 * `donation.voided`, `donation.left`
 */
export const voidOne = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const found = session.book.donations.get(input.id);
  if (!found) throw new ProblemError('missing', 'donation.unknown');
  if (found.void_reason !== null)
    throw new ProblemError('conflict', 'donation.voided', {
      with: { by: found.void_by ?? '', reason: found.void_reason },
    });
  const animal = session.book.animals.get(found.animal_id);
  if (found.whole === 1 && animal?.stage === 'released')
    throw new ProblemError('refused', 'donation.left', { with: { ticket: animal.ticket } });
  session.book.donations.void(found.id, input.reason, session.now(), input.by);
  return { id: found.id };
});

/** Donations of a season by date; of the current season by default. @throws ProblemError `records.too-many` */
export const list = read(v.object({ season: v.optional(seasonYear) }), (session, input): DonationsView => {
  const { from, to } = daysOf(session, input.season ?? session.season());
  const found = session.book.donations.between({ from, to, most: MAX_ROWS + 1 });
  if (found.length > MAX_ROWS)
    throw new ProblemError('refused', 'records.too-many', { with: { most: MAX_ROWS } });
  const rows = found.map(donationRow);
  const groups = Map.groupBy(rows, (row) => JSON.stringify([row.on.slice(0, 7), row.program, row.currency]));
  const months = [...groups].map(([key, of]) => {
    const [month, program, currency] = JSON.parse(key) as [string, string, string];
    const sum = (value: (row: DonationRow) => number): number =>
      of.reduce((total, row) => total + value(row), 0);
    return {
      month,
      program,
      currency,
      count: of.length,
      grams: sum((row) => row.grams),
      owesMinor: sum((row) => row.owesMinor),
    };
  });
  return { rows, months };
});

/** Donations of an animal. */
export function donationsOf(session: Session, animalId: number): DonationRow[] {
  return session.book.donations.ofAnimal(animalId).map(donationRow);
}

/** Half a cent rounds up. */
function donationRow(row: DonationRecord): DonationRow {
  return {
    id: row.id,
    animalId: row.animal_id,
    ticket: row.ticket,
    hunter: row.hunter,
    program: row.program,
    whole: row.whole === 1,
    typed: row.typed,
    grams: row.grams,
    confirmation: row.confirmation,
    owesMinor: Math.round(Number((fromGrams(row.grams, row.pays_unit) * row.pays_minor).toFixed(6))),
    currency: row.currency,
    on: row.donated_on,
    why: row.why,
    note: row.note,
    by: row.by,
  };
}

function lastNotice(session: Session, animalId: number): boolean {
  return session.book.leaving.notices(animalId).some(({ step }) => step === 'last');
}

/** Refuses more than is packed and in the shop: former donations and picked-up parts are subtracted. */
function refuseMore(session: Session, animal: AnimalRow, grams: number): void {
  const packed = packagesOf(session, animal, session.book.weighings.ofAnimal(animal.id));
  const taken = takenParts(session, animal.id).reduce((total, { rows }) => total + gramsOf(rows), 0);
  const left = gramsOf(packed) - donatedGrams(session, animal.id) - taken;
  if (grams > left + ROUNDING_TOLERANCE_GRAMS)
    throw new ProblemError('refused', 'donation.more', {
      field: 'typed',
      with: { grams, leftGrams: Math.max(0, left), ticket: animal.ticket },
    });
}

function daysOf(session: Session, season: number): { from: string; to: string } {
  const month = String(session.settings.seasonStartsMonth).padStart(2, '0');
  const from = `${season}-${month}-01`;
  const next = new Date(Date.parse(`${season + 1}-${month}-01T00:00:00Z`) - 86_400_000);
  return { from, to: next.toISOString().slice(0, 10) };
}
