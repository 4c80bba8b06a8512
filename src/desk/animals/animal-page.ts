/** Everything that the Table shows of one animal. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { HunterRow } from '../../book/records/hunters.ts';
import type { WeightSums } from '../../book/records/weighings.ts';
import { daysBetween } from '../../core/values/dates.ts';
import { hangState } from '../../core/cold/hanging.ts';
import { belongingsOf } from '../animal/belongings.ts';
import { balanceOfAnimal } from '../weighing/animal-weights.ts';
import { dueOf } from '../bills/due.ts';
import { whereOf } from '../coolers/coolers.ts';
import { hunterCard, hunterOf } from '../animal/hunters.ts';
import { affectsOf } from '../animal/affected.ts';
import { heldGrind } from '../animal/grinder-traces.ts';
import { heldWith } from '../animal/hold-rules.ts';
import { instructionsOf, ordersStatus } from '../animal/instructions.ts';
import { packagesOf } from '../animal/packages.ts';
import { noneOf } from '../weighing/part-none.ts';
import { primalsWeighed } from '../animal/primals.ts';
import { lacksOf } from '../input/record-sets.ts';
import { countsOf, sharersOf } from '../animal/shares.ts';
import { donationsOf } from './donations.ts';
import { noticesOf } from './notices.ts';
import { resultsOf } from './test-results.ts';
import { speciesCard } from '../supplied/resources.ts';
import { sourceNote } from '../supplied/sources.ts';
import type { Session } from '../session/session.ts';
import type { AnimalPage, LadderPiece, Sharer } from '../contract/contract.ts';
import { PART_OF, partGrams } from '../animal/weighed-parts.ts';
import { shareBase } from '../weighing/weighing-check.ts';
import { weighingRow } from '../weighing/weighing-row.ts';
import { takeHomeGrams } from '../learning/take-home.ts';
import { CUT_PARTS } from '../../trade/weighing.ts';

export function animalPage(session: Session, animal: AnimalRow): AnimalPage {
  const { book, settings } = session;
  const species = session.species.of(animal.species);
  const weighings = book.weighings.ofAnimal(animal.id);
  const sums = book.weighings.sums(animal.id);
  const base = shareBase(animal, sums, species);
  const shares = session.yields.sharesBeside(animal);
  const hunter = hunterOf(session, animal.hunter_id);
  const hold = book.animals.hold(animal.id);
  const lot = book.fat.ofAnimal(animal.id);
  const release = book.records.releaseOf(animal.id);
  const disposal = book.records.disposalOf(animal.id) ?? null;
  const days = Math.max(0, daysBetween(animal.received_on, session.today()));
  const packages = packagesOf(session, animal, weighings);
  const parts = book.animals.parts(animal.id);
  const balance = balanceOfAnimal(session, animal, weighings, sums);
  return {
    id: animal.id,
    ticket: animal.ticket,
    formerTickets: book.animals.formerTickets(animal.id),
    species: speciesCard(species, session.species.own.has(species.code)),
    sex: animal.sex,
    age: animal.age,
    brought: animal.brought,
    legs: animal.legs,
    parts,
    origin: animal.origin,
    hunter: hunterCard(hunter),
    licence: animal.licence,
    tag: animal.tag,
    killDate: animal.kill_date,
    killArea: animal.kill_area,
    deliverer: { name: animal.deliverer_name, address: animal.deliverer_address },
    // A canceled animal was never here, so its record needs no fields.
    lacks: animal.stage === 'canceled' ? [] : lacksIn(session, animal, hunter, sums),
    receivedOn: animal.received_on,
    promisedOn: animal.promised_on,
    condition: animal.condition,
    damage: animal.damage,
    detail: animal.detail,
    stage: animal.stage,
    days,
    hangState: hangState(days, {
      readyDays: settings.hangingReadyDays,
      limitDays: settings.hangingLimitDays,
    }),
    hold: hold
      ? {
          id: hold.id,
          reason: hold.reason,
          sample: hold.sample,
          openedAt: hold.at,
          positive: hold.positive === 1,
        }
      : null,
    where: whereOf(session, animal),
    instructions: instructionsOf(session, animal.id),
    ordersStatus: ordersStatus(session, animal.id),
    weighings: weighings.map(weighingRow),
    lastWork: book.stations.lastWork(animal.id) ?? null,
    none: noneOf(session, animal.id, weighings),
    weights: { receivedGrams: sums?.received ?? null, hangingGrams: sums?.hanging ?? null },
    ladder: ladderOf(sums),
    expected: expectedOf(shares, base, sums),
    expectedFrom: {
      ownAnimals: session.yields.model.animals.get(species.code) ?? 0,
      others: session.teachers.from.yields,
      ...sourceNote(species.takeHome),
    },
    primals: primalsWeighed(species, parts, weighings, base, (id) =>
      balance.suspects.some(({ weighingId }) => weighingId === id),
    ),
    primalsFrom: sourceNote(species.primalsFrom),
    balance,
    trimGrams: sums?.trim ?? 0,
    trimLeftGrams: Math.max(0, (sums?.trim ?? 0) - (sums?.trim_ground ?? 0)),
    ownFat: lot ? { lotId: lot.id, grams: lot.start_grams, leftGrams: Math.max(0, lot.left_grams) } : null,
    takeHomeGrams: sums ? (takeHomeGrams({ ...animal, ...sums }) ?? 0) : 0,
    batches: book.batches
      .ofAnimal(animal.id)
      .map(({ id, name, product, state }) => ({ id, name, product, state })),
    packages,
    release: release ? { to: release.given_to, on: release.released_on, by: release.by } : null,
    disposal: disposal && {
      what: disposal.what,
      how: disposal.how,
      reason: disposal.reason,
      on: disposal.disposed_on,
      by: disposal.by,
    },
    sharers: withCounts(sharersOf(session, animal.id), packages),
    donations: donationsOf(session, animal.id),
    unprocessed: unprocessedOf(session, animal.id),
    notices: noticesOf(session, animal.id),
    belongings: belongingsOf(session, animal.id),
    canceled: canceledOf(session, animal.id),
    bill: dueOf(session, animal.id),
    results: resultsOf(session, animal.id),
    waitsFor: heldWith(session, animal.id),
    affects: affectsOf(session, animal),
    heldGrinds: hold
      ? book.batches.ofAnimal(animal.id).flatMap((batch) => heldGrind(session, batch, animal.ticket) ?? [])
      : [],
    pooledWith: book.batches.pooledWith(animal.id),
  };
}

function withCounts(sharers: readonly Sharer[], packages: AnimalPage['packages']): AnimalPage['sharers'] {
  if (sharers.length === 0) return [];
  const divided = countsOf(packages, sharers);
  return sharers.map((sharer, i) => ({ ...sharer, counts: divided.map((row) => row[i] ?? 0) }));
}

function unprocessedOf(session: Session, animalId: number): AnimalPage['unprocessed'] {
  const stated = session.book.leaving.unprocessed(animalId);
  return stated ? { reason: stated.reason, at: stated.at, by: stated.by } : null;
}

/** Required fields that are missing from the record. */
function lacksIn(
  session: Session,
  animal: AnimalRow,
  hunter: HunterRow,
  sums: WeightSums | undefined,
): AnimalPage['lacks'] {
  return lacksOf(
    {
      ...animal,
      address: hunter.address,
      phone: hunter.phone,
      details_removed_at: session.book.removedDetails.removedAt(hunter.id),
      received_grams: sums?.received ?? null,
      hanging_grams: sums?.hanging ?? null,
    },
    session.settings.recordFields,
  );
}

function canceledOf(session: Session, animalId: number): AnimalPage['canceled'] {
  const cancel = session.book.cancels.ofAnimal(animalId);
  return cancel ? { reason: cancel.reason, at: cancel.at, by: cancel.by } : null;
}

function ladderOf(sums: WeightSums | undefined): AnimalPage['ladder'] {
  const base = sums?.hanging ?? sums?.received ?? null;
  if (!sums || base === null) return null;
  const pieces: LadderPiece[] = CUT_PARTS.map((part) => ({
    part,
    grams: partGrams(sums, PART_OF[part] ?? 'meat'),
  }))
    .filter(({ grams }) => grams > 0)
    .map((piece) => ({ ...piece, share: piece.grams / base }));
  const rest = base - pieces.reduce((total, { grams }) => total + grams, 0);
  return { baseGrams: base, base: sums.hanging === null ? 'received' : 'hanging', pieces, restGrams: rest };
}

/** Shares relate to the weight that the ladder shows, which may include the hide. */
function expectedOf(
  shares: ReturnType<Session['yields']['shares']>,
  base: number | null,
  sums: WeightSums | undefined,
): AnimalPage['expected'] {
  const ladderBase = sums?.hanging ?? sums?.received ?? null;
  const scale = base === null || ladderBase === null ? 1 : base / ladderBase;
  const parts = [
    ...CUT_PARTS.map((part) => [part, PART_OF[part]] as const),
    ['take-home', 'takeHome'] as const,
    ['shrink', 'shrink'] as const,
  ];
  return parts.flatMap(([part, known]) =>
    known ? [{ part, low: shares[known].low * scale, high: shares[known].high * scale }] : [],
  );
}
