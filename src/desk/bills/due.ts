import type { DeskRoom } from '../session/room.ts';
import type { BillState } from '../contract/contract.ts';

/** Whether an animal is billed, and what of it is still open in minor units of its currency; 0 where there is no bill. */
export function dueOf(room: DeskRoom, animalId: number): BillState {
  const standing = room.book.bills.ofAnimal(animalId).find((bill) => bill.void_at === null);
  if (!standing) return { billed: false, number: null, dueMinor: 0, currency: room.settings.currency };
  const dueMinor = standing.total_minor - room.book.payments.paid(animalId);
  return { billed: true, number: standing.number, dueMinor, currency: standing.currency };
}
