import type { AffectedAnimal, Affects, AnimalPage, BillState } from '../contract/contract.ts';
import { unreachable, withoutPhone } from './hunter.ts';

/** Whether it is billed, and not what is due. */
const NO_BILL: Pick<BillState, 'number' | 'dueMinor' | 'currency'> = {
  number: null,
  dueMinor: 0,
  currency: '',
};

const affectedForFloor = (one: AffectedAnimal): AffectedAnimal => ({
  ...withoutPhone(one),
  sharers: one.sharers.map(withoutPhone),
});

const affectsForFloor = (affects: Affects): Affects => ({
  ...affects,
  animals: affects.animals.map(affectedForFloor),
  untraced: affects.untraced.map(affectedForFloor),
});

/** Of `animals.get`: its meat, orders, holds and who it belongs to by name. */
export const animalForFloor = (page: AnimalPage): AnimalPage => ({
  ...page,
  hunter: unreachable(page.hunter),
  licence: '',
  deliverer: { name: page.deliverer.name, address: '' },
  sharers: page.sharers.map(withoutPhone),
  donations: page.donations.map((row) => ({ ...row, owesMinor: 0, currency: '' })),
  notices: [],
  bill: { ...page.bill, ...NO_BILL },
  affects: page.affects && affectsForFloor(page.affects),
  pooledWith: page.pooledWith.map(withoutPhone),
});
