/** Open balances by hunter. Each sharer of an animal has a part; the parts sum to the animal's balance. */
import type { OpenBalanceRecord } from '../../book/records/money/open-balances.ts';
import { donatedGrams, partsOf, takenParts, withoutDonated } from '../animal/parts-here.ts';
import { packagesOf } from '../animal/packages.ts';
import { sharersOf } from '../animal/shares.ts';
import { billShares, payerOf } from '../bills/bill-shares.ts';
import type { BillShare, Statement } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

/** What one hunter owes on one animal; negative for a credit. */
export interface Balance {
  row: OpenBalanceRecord;
  hunterId: number;
  hunter: string;
  phone: string;
  totalMinor: number;
  paidMinor: number;
  /** This hunter's part of a shared animal; else null. */
  part: BillShare | null;
}

type Line = Omit<Statement['accounts'][number]['lines'][number], 'balanceMinor'> & { currency: string };

/** All open balances, oldest bill first. A sharer whose part is paid has none. */
export function balancesOf(session: Session): Balance[] {
  return session.book.openBalances.list().flatMap((row): Balance[] => {
    const owed = { totalMinor: row.total_minor, taxMinor: row.tax_minor };
    const parts = billShares(session, row.animal_id, owed);
    if (parts.length === 0)
      return [
        {
          row,
          hunterId: row.hunter_id,
          hunter: row.hunter,
          phone: row.phone,
          totalMinor: row.total_minor,
          paidMinor: row.paid_minor,
          part: null,
        },
      ];
    return parts
      .filter(({ dueMinor }) => dueMinor !== 0)
      .map((part) => ({
        row,
        hunterId: part.hunterId,
        hunter: part.name,
        phone: part.phone,
        totalMinor: part.totalMinor,
        paidMinor: part.paidMinor,
        part,
      }));
  });
}

/**
 * Bills and payments behind one hunter's balances, oldest first: for a shared animal the hunter's part of each bill
 * and the hunter's own payments.
 */
export function documentsOf(session: Session, balances: readonly Balance[], hunterId: number): Line[] {
  const of = new Map(
    balances.map(({ row, part }) => {
      const sharers = part ? sharersOf(session, row.animal_id) : [];
      const payer = payerOf(session, row.animal_id, sharers);
      const isOwn = (id: number | null): boolean => sharers[payer(id)]?.hunterId === hunterId;
      return [row.animal_id, { part, isMine: isOwn }] as const;
    }),
  );
  return session.book.openBalances.documents([...of.keys()]).flatMap((one): Line[] => {
    const { date, what, number, ticket, minor, currency } = one;
    const { part, isMine: isOwn } = of.get(one.animal_id) ?? { part: null, isMine: () => true };
    const line = { date, what, number, ticket, currency };
    if (!part) return [{ ...line, minor, wholeMinor: null }];
    if (what === 'bill') return [{ ...line, minor: part.totalMinor, wholeMinor: minor }];
    return isOwn(one.payer_id) ? [{ ...line, minor, wholeMinor: null }] : [];
  });
}

/** Packages of an animal that are in the shop; for a shared one this hunter's, none after pickup. */
export function packagesHere(
  session: Session,
  { animal_id: id, ticket }: OpenBalanceRecord,
  hunterId: number | null,
): { count: number; grams: number }[] {
  const packed = packagesOf(session, { id, ticket }, session.book.weighings.ofAnimal(id));
  const donated = donatedGrams(session, id);
  if (hunterId === null) return withoutDonated(packed, donated);
  const taken = takenParts(session, id);
  if (taken.some(({ hunter_id }) => hunter_id === hunterId)) return [];
  const sharers = sharersOf(session, id);
  return (
    partsOf(packed, sharers, taken, donated)[sharers.findIndex((one) => one.hunterId === hunterId)] ?? []
  );
}
