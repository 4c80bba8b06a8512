/** What a positive result affects: animals, batches and packages, and the actions recorded for each. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { BatchRecord } from '../../book/records/batches.ts';
import type { AffectedAnimal, AffectedBy, Affects } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { ownersOf } from './owners.ts';
import { sharersOf } from './shares.ts';
import { untracedReach, type UntracedReach } from './table-ground.ts';
import { tracesOf } from './traces.ts';

/** Positive animals whose meat reached a batch, and how. */
export function reachedBy(
  session: Session,
  { id, season }: Pick<BatchRecord, 'id' | 'season'>,
): AffectedBy[] {
  return tracesOf(session, season).reached.flatMap(({ source, batches }) => {
    const how = batches.get(id);
    if (!how) return [];
    const from = how.by === 'grinder' ? (session.book.batches.get(how.from)?.name ?? '') : null;
    return [{ ticket: source.ticket, from }];
  });
}

/** Batches that contain this animal's meat and were reached by meat of another, positive animal. */
export function affectedBatches(
  session: Session,
  animalId: number,
): (AffectedBy & { batchId: number; batch: string })[] {
  const own = session.book.animals.get(animalId)?.ticket;
  return session.book.batches.ofAnimal(animalId).flatMap((batch) => {
    if (!tracesOf(session, batch.season).members.get(batch.id)?.includes(animalId)) return [];
    return reachedBy(session, batch)
      .filter(({ ticket }) => ticket !== own)
      .map((by) => ({ ...by, batchId: batch.id, batch: batch.name }));
  });
}

/** Everything that an animal's positive result affects; null if the result is not positive or nothing was ground. */
export function affectsOf(
  session: Session,
  { id, ticket, season: ownSeason }: Pick<AnimalRow, 'id' | 'ticket' | 'season'>,
): Affects | null {
  if (session.book.animals.hold(id)?.positive !== 1) return null;
  const seasons = new Set(session.book.batches.ofAnimal(id).map(({ season }) => season));
  const untraced = [...seasons.add(ownSeason)].map((season) => untracedReach(session, id, season));
  const found = [...seasons].flatMap((season) => {
    const { reached, members } = tracesOf(session, season);
    const batches = reached.find(({ source }) => source.id === id)?.batches ?? new Map<number, never>();
    return [...batches.keys()].map((batchId) => ({ batchId, animals: members.get(batchId) ?? [] }));
  });
  const ownUntraced = untraced.some(({ own }) => own);
  if (found.length === 0 && !ownUntraced) return null;
  const batches = found.flatMap(({ batchId, animals }) => {
    const batch = session.book.batches.get(batchId);
    if (!batch) return [];
    const from = reachedBy(session, batch).find((one) => one.ticket === ticket)?.from ?? null;
    const owners = ownersOf(session, batchId);
    return [{ id: batch.id, name: batch.name, product: batch.product, from, owners, animals }];
  });
  const notes = session.book.affectedNotes.ofSource(id);
  const ids = [...new Set(batches.flatMap(({ animals }) => animals))].filter((one) => one !== id);
  // Meat that already left may be eaten tonight, so those hunters come first.
  const gone = new Map<number, number>();
  const left = (one: number): number => {
    const known = gone.get(one);
    if (known !== undefined) return known;
    const out = session.book.animals.get(one)?.stage === 'released' || session.book.shares.pickups(one).length > 0; // prettier-ignore
    gone.set(one, Number(out));
    return Number(out);
  };
  ids.sort((a, b) => left(b) - left(a) || a - b);
  return {
    batches: batches.map(({ id: batchId, name, product, from, owners }) => ({
      id: batchId,
      name,
      product,
      from,
      packages: owners.reduce((sum, owner) => sum + owner.packages, 0),
      grams: owners.reduce((sum, owner) => sum + owner.shareGrams, 0),
    })),
    animals: ids.flatMap((one) => {
      const containing = batches.filter(({ animals }) => animals.includes(one));
      const otherTicket = session.book.animals.get(one)?.ticket;
      const shares = containing.flatMap(({ owners }) =>
        owners.filter((owner) => owner.ticket === otherTicket),
      );
      return rowOf(session, notes, {
        id: one,
        where: containing.map(({ name }) => name),
        packages: shares.reduce((sum, owner) => sum + owner.packages, 0),
        grams: shares.reduce((sum, owner) => sum + owner.shareGrams, 0),
      });
    }),
    ownUntraced,
    untraced: untraced
      .flatMap(({ animals }) => animals)
      .sort((a, b) => left(b.id) - left(a.id) || a.id - b.id)
      .flatMap((one) => rowOf(session, notes, one)),
  };
}

function rowOf(
  session: Session,
  notes: ReturnType<Session['book']['affectedNotes']['ofSource']>,
  { id, where, packages, grams }: UntracedReach['animals'][number],
): AffectedAnimal[] {
  const animal = session.book.animals.get(id);
  if (!animal) return [];
  const done = notes.filter(({ animal_id }) => animal_id === id);
  const taken = session.book.shares.pickups(id).map(({ hunter_id }) => hunter_id);
  return [
    {
      id,
      ticket: animal.ticket,
      hunter: animal.hunter,
      phone: session.book.hunters.get(animal.hunter_id)?.phone ?? '',
      sharers: sharersOf(session, id).map(({ hunterId, name, phone }) => ({
        name,
        phone,
        gone: animal.stage === 'released' || taken.includes(hunterId),
      })),
      stage: animal.stage,
      batches: where,
      packages,
      grams,
      toCall: !done.some(({ what }) => what === 'called'),
      notes: done.map(({ id: noteId, what, note, at, by }) => ({ id: noteId, what, note, at, by })),
    },
  ];
}
