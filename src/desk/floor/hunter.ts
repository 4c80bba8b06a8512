import type { DraftRow, HunterCard, SlipView } from '../contract/contract.ts';

/** A hunter's card with the name that stands on every tag, and no way to reach or find its owner. */
export const unreachable = (card: HunterCard): HunterCard => ({
  ...card,
  phone: '',
  email: '',
  address: '',
  licence: '',
});

/** Of `hunters.find`: who of that name brought the last animal under which ticket. */
export const huntersForFloor = (cards: HunterCard[]): HunterCard[] => cards.map(unreachable);

/** Of `drafts.list`: what the hunter typed just now, and nothing that the book knew before. */
export const draftsForFloor = (rows: DraftRow[]): DraftRow[] => rows.map(draftForFloor);

const draftForFloor = (row: DraftRow): DraftRow => ({ ...row, known: row.known && unreachable(row.known) });

/** Of `slips.find`: the same. */
export const slipForFloor = (slip: SlipView): SlipView => ({
  ...slip,
  draft: slip.draft && draftForFloor(slip.draft),
});

/** Somebody who shares an animal, by name alone. */
export const withoutPhone = <T extends { phone: string }>(one: T): T => ({ ...one, phone: '' });
