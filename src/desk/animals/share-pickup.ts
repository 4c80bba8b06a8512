/** One of several hunters picks up a part of an animal; the last part releases the animal. */
import * as v from 'valibot';
import { packagesOf } from '../animal/packages.ts';
import { donatedGrams, partsOf, takenParts } from '../animal/parts-here.ts';
import { sharersOf } from '../animal/shares.ts';
import { sharesDue } from '../bills/bill-shares.ts';
import { dueOf } from '../bills/due.ts';
import { animalOf } from '../animal/closed.ts';
import { by, confirmedOf, id, listOf, needed, text } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { AnimalPage, PickupShare } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { askBelongings, handOverBelongings, restoreBelongings } from './belongings-at-pickup.ts';
import { leave, refuseToGo, refuseUnpaid } from './going.ts';

/**
 * Each hunter's part of packed meat without donations, what each still owes, and who picked up already. No hunter owes
 * more, or gets more back, than the animal's account: once the bill is paid, it does not matter by whom.
 */
export function pickupShares(
  session: Session,
  animalId: number,
  packages: AnimalPage['packages'],
): PickupShare[] {
  const sharers = sharersOf(session, animalId);
  if (sharers.length === 0) return [];
  const due = sharesDue(session, animalId);
  const whole = dueOf(session, animalId).dueMinor;
  const [least, most] = [Math.min(0, whole), Math.max(0, whole)];
  const taken = takenParts(session, animalId);
  const rows = partsOf(packages, sharers, taken, donatedGrams(session, animalId));
  return sharers.map((sharer, i) => {
    const own = rows[i] ?? [];
    const gone = taken.find(({ hunter_id }) => hunter_id === sharer.hunterId);
    return {
      ...sharer,
      rows: own,
      packages: own.reduce((total, { count }) => total + count, 0),
      grams: own.reduce((total, { grams }) => total + grams, 0),
      dueMinor: Math.max(least, Math.min(due.get(sharer.hunterId) ?? 0, most)),
      taken: gone ? { id: gone.id, to: gone.given_to, on: gone.taken_on } : null,
    };
  });
}

/**
 * Releases one hunter's part today. The last part closes the animal. If unpaid, the initials of the responsible
 * person are required.
 * @throws ProblemError `share.not-sharer`, `share.gone` (refused), and as `pickup.release`
 */
export const release = write(
  v.object({
    id,
    hunterId: id,
    to: needed(200),
    unpaidBy: text(6),
    belongings: v.optional(listOf(id, 100), []),
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const animal = animalOf(session, input.id);
    refuseToGo(session, animal);
    const shares = pickupShares(
      session,
      animal.id,
      packagesOf(session, animal, session.book.weighings.ofAnimal(animal.id)),
    );
    const share = shares.find(({ hunterId }) => hunterId === input.hunterId);
    if (!share) throw new ProblemError('missing', 'share.not-sharer', { with: { ticket: animal.ticket } });
    if (share.taken)
      throw new ProblemError('conflict', 'share.gone', {
        with: { name: share.name, to: share.taken.to, on: share.taken.on },
      });
    if (input.unpaidBy === '') refuseUnpaid(session, animal, share.dueMinor);
    const last = shares.every((one) => one.taken !== null || one === share);
    // Ask about belongings that stay only if nobody else picks up later.
    askBelongings(session, animal, { ...input, confirmed: last ? input.confirmed : true });
    const on = session.today();
    const pickup = { on, unpaidBy: input.unpaidBy || null, at: session.now(), by: input.by };
    session.book.shares.addPickup({
      animalId: animal.id,
      hunterId: share.hunterId,
      to: input.to,
      packages: share.rows,
      ...pickup,
    });
    handOverBelongings(session, input.belongings, { to: input.to, ...pickup });
    if (last) {
      const to = [...shares.flatMap(({ taken }) => (taken ? [taken.to] : [])), input.to];
      leave(session, animal, { to: [...new Set(to)].join(', ').slice(0, 200), note: '', ...pickup });
    }
    return { id: animal.id, last };
  },
);

/**
 * Voids the pickup of one part and restores its belongings. If the animal was released with it, `animals.reopen`
 * voids all parts.
 * @throws ProblemError `share.not-gone`, `animal.closed`
 */
export const voidRelease = write(
  v.object({ id, hunterId: id, reason: needed(300), by }),
  (session, input) => {
    const animal = animalOf(session, input.id);
    if (animal.stage !== 'ready')
      throw new ProblemError('refused', 'animal.closed', {
        with: { ticket: animal.ticket, stage: animal.stage },
      });
    const taken = session.book.shares
      .pickups(animal.id)
      .find(({ hunter_id }) => hunter_id === input.hunterId);
    if (!taken) throw new ProblemError('missing', 'share.not-gone', { with: { ticket: animal.ticket } });
    session.book.shares.voidPickup(taken.id, input.reason, session.now(), input.by);
    restoreBelongings(session, animal.id, { to: taken.given_to, at: taken.at }, input);
    return { id: animal.id };
  },
);
