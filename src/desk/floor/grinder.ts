import type { FatLotRow, GrinderView, GrindPlan } from '../contract/contract.ts';

const unpricedLot = (lot: FatLotRow): FatLotRow => ({ ...lot, costMinor: null, costUnit: null });

/** Of `fat.listLots`: what is on hand, and not what it cost. */
export const lotsForFloor = (lots: FatLotRow[]): FatLotRow[] => lots.map(unpricedLot);

/** Of `grinder.get`. */
export const grinderForFloor = (view: GrinderView): GrinderView => ({ ...view, fat: lotsForFloor(view.fat) });

/** Of `grinder.plan`: what goes in, and not what it costs. */
export const planForFloor = (plan: GrindPlan): GrindPlan =>
  plan.kind === 'plan' ? { ...plan, costMinor: 0 } : plan;
