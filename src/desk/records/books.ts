import * as v from 'valibot';
import { nameKey } from '../../book/records/hunters.ts';
import { recordEntries, type OfficerRow } from '../../book/records/record-entries.ts';
import { ticketOf } from '../../book/records/season-mark.ts';
import { daysBetween, FIRST_DAY, yearsBefore } from '../../core/values/dates.ts';
import { affectedBatches } from '../animal/affected.ts';
import { ownersOf } from '../animal/owners.ts';
import { tracesOf } from '../animal/traces.ts';
import { needed, optionalDate, text } from '../input/input.ts';
import { read } from '../session/procedure.ts';
import { lacksOf } from '../input/record-sets.ts';
import { ProblemError } from '../contract/problem.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { Session } from '../session/session.ts';
import { mapInSlices } from '../session/slices.ts';
import type { RecordCheck, RecordRow } from '../contract/contract.ts';
import { packedProducts, productsOf, type PackedProduct } from './made-products.ts';

/** Four of the largest seasons; a window cannot show, sort or print more. */
const MAX_RECORDS = 20_000;
/** At most this many numbers of a gap are listed. */
const MAX_GAPS = 50;
const MAX_WRONG_DAYS = 20;

/**
 * The record book with the missing fields of each entry: of a season, of animals received in a date range, or of the
 * current season by default. @throws ProblemError `records.too-many` (refused)
 */
export const list = read(
  v.object({
    season: v.optional(seasonYear),
    from: optionalDate,
    to: optionalDate,
    species: v.optional(v.nullable(needed(40)), null),
    state: v.optional(v.nullable(v.picklist(['open', 'closed'], 'choice.state')), null),
    text: text(200),
  }),
  async (session, input): Promise<RecordRow[]> => {
    const { from, to, species, state } = input;
    const dated = from !== null || to !== null;
    const season = input.season ?? (dated ? null : session.season());
    const key = nameKey(input.text);
    const kept = yearsBefore(session.today(), session.settings.retentionYears);
    let found = 0;
    const inBatch = memoized((batchId: number) => ({
      owners: ownersOf(session, batchId),
      products: packedProducts(session, batchId),
    }));
    const rows = await session.book.read((db) =>
      mapInSlices(recordEntries(db, { season, from, to, species, state }), (row) => {
        if (key !== '' && !isFound(row, key)) return [];
        if ((found += 1) > MAX_RECORDS)
          throw new ProblemError('refused', 'records.too-many', { with: { most: MAX_RECORDS } });
        return [recordRow(session, row, kept, inBatch)];
      }),
    );
    return rows.flat();
  },
);

/** Checks the record book: missing ticket numbers, impossible dates, and how many records are past retention. */
export const check = read(v.object({}), (session): RecordCheck => {
  const years = session.settings.retentionYears;
  const before = yearsBefore(session.today(), years);
  return {
    seasons: session.book.records
      .ticketRuns()
      .map(({ season, first, last, firstTicket, lastTicket, entries }) => ({
        season,
        first: firstTicket,
        last: lastTicket,
        entries,
        // A complete run from 1 has no gaps.
        gaps: first === 1 && last === entries ? [] : gapsOf(session, season),
      })),
    wrongDays: session.book.records
      .wrongDays(FIRST_DAY, session.today(), MAX_WRONG_DAYS)
      .map(({ ticket, received_on }) => ({ ticket, receivedOn: received_on })),
    pastKeeping: { years, before, entries: session.book.records.leftBefore(before) },
  };
});

function gapsOf(session: Session, season: number): string[] {
  const missing: string[] = [];
  for (const { after, before } of session.book.records.gaps(season))
    for (let number = after + 1; number < before && missing.length < MAX_GAPS; number++)
      // A ticket used by an animal of another season, now or before, is no gap.
      if (!session.book.animals.byTicket(ticketOf(season, number))) missing.push(ticketOf(season, number));
  return missing;
}

function sharersIn(json: string): RecordRow['sharers'] {
  const rows = JSON.parse(json) as SharerOfRow[];
  const all = rows.reduce((total, { amount }) => total + amount, 0);
  return rows.length < 2
    ? []
    : rows.map(({ name, phone, amount, to, on }) => ({
        name,
        phone,
        share: amount / all,
        taken: to === null || on === null ? null : { to, on },
      }));
}

interface SharerOfRow {
  name: string;
  phone: string;
  amount: number;
  to: string | null;
  on: string | null;
}

/** As returned by the record book's query. */
type BelongingOfRow = Omit<RecordRow['belongings'][number], 'evidence'> & { evidence: number };

function isFound(row: OfficerRow, key: string): boolean {
  return (
    row.ticket.includes(key) ||
    [row.hunter, row.deliverer_name, row.tag, row.licence].some((value) => nameKey(value).includes(key))
  );
}

interface InBatch {
  owners: ReturnType<typeof ownersOf>;
  products: PackedProduct[];
}

/** Memoizes a function of an id. */
function memoized<T>(work: (id: number) => T): (id: number) => T {
  const known = new Map<number, T>();
  return (id) => {
    const found = known.get(id) ?? work(id);
    known.set(id, found);
    return found;
  };
}

function recordRow(
  session: Session,
  row: OfficerRow,
  keptFrom: string,
  inBatch: (batchId: number) => InBatch,
): RecordRow {
  const batches = JSON.parse(row.batches) as { id: number; season: number }[];
  const ground = batches.flatMap(({ id }) =>
    inBatch(id).owners.filter(({ ticket }) => ticket === row.ticket),
  );
  const reached = batches.some(({ season }) => tracesOf(session, season).reached.length > 0);
  const species = session.species.of(row.species);
  const nameOf = (primal: string): string =>
    species.primals.find(({ code }) => code === primal)?.name ?? primal;
  const enteredOn = session.dayOf(row.created_at);
  const days = daysBetween(row.received_on, enteredOn);
  const dueMinor = row.billed_minor === null ? 0 : row.billed_minor - row.paid_minor;
  const leftOn = row.released_on ?? row.disposed_on;
  return {
    id: row.id,
    ticket: row.ticket,
    hunter: row.hunter,
    address: row.address,
    phone: row.phone,
    deliverer: row.deliverer_name,
    delivererAddress: row.deliverer_address,
    licence: row.licence,
    tag: row.tag,
    species: species.code,
    speciesName: species.name,
    sex: row.sex,
    brought: row.brought,
    pieces: (JSON.parse(row.parts) as { primal: string; count: number }[]).map(({ primal, count }) => ({
      name: nameOf(primal),
      count,
    })),
    sharers: sharersIn(row.sharers),
    donations: JSON.parse(row.donations) as RecordRow['donations'],
    belongings: (JSON.parse(row.belongings) as BelongingOfRow[]).map(({ evidence, ...rest }) => ({
      ...rest,
      evidence: evidence === 1,
    })),
    killDate: row.kill_date,
    killArea: row.kill_area,
    receivedOn: row.received_on,
    enteredOn,
    // An imported animal was recorded elsewhere at the time.
    lateDays:
      row.from_file === null && row.cancel_reason === null && days > session.settings.lateDays ? days : 0,
    receivedGrams: row.received_grams,
    hangingGrams: row.hanging_grams,
    packedGrams: row.packed_grams,
    groundPackages: ground.reduce((sum, { packages }) => sum + packages, 0),
    groundGrams: ground.reduce((sum, { shareGrams }) => sum + shareGrams, 0),
    made: batches.flatMap(({ id }) => productsOf(inBatch(id).products, row.id)),
    hold: row.hold,
    results: JSON.parse(row.results) as RecordRow['results'],
    photos: row.photos,
    affectedBy: reached ? [...new Set(affectedBatches(session, row.id).map(({ ticket }) => ticket))] : [],
    releasedOn: row.released_on,
    releasedTo: row.given_to,
    disposedOn: row.disposed_on,
    disposedWhat: row.disposed_what,
    disposedHow: row.disposed_how,
    canceled:
      row.cancel_reason === null || row.canceled_at === null
        ? null
        : { reason: row.cancel_reason, on: session.dayOf(row.canceled_at) },
    stage: row.stage,
    money: row.billed_minor === null ? 'none' : dueMinor > 0 ? 'open' : 'paid',
    dueMinor,
    currency: row.billed_currency ?? session.settings.currency,
    // A canceled animal was never brought in, so it lacks nothing.
    lacks: row.cancel_reason === null ? lacksOf(row, session.settings.recordFields) : [],
    pastKeeping: leftOn !== null && leftOn < keptFrom,
  };
}
