/**
 * What the desk answers with: plain objects that survive structured clone and JSON.
 * Masses are grams, shares and fat are fractions, money is integer minor units, dates are `YYYY-MM-DD`,
 * moments are UTC ISO text. The window turns them into words and the shop's units.
 */

export type * from './affected.ts';
export type * from './animal.ts';
export type * from './import.ts';
export type * from './fat.ts';
export type * from './backup.ts';
export type * from './belonging.ts';
export type * from './bill.ts';
export type * from './costing.ts';
export type * from './donation.ts';
export type * from './check-in/draft.ts';
export type * from './check-in/drop-off.ts';
export type * from './grinder.ts';
export type * from './instructions.ts';
export type * from './lessons.ts';
export type * from './weighing.ts';
export type * from './photo.ts';
export type * from './price.ts';
export type * from './quote.ts';
export type * from './record.ts';
export type * from './share.ts';
export type * from './shelf.ts';
export type * from './season.ts';
export type * from './shop.ts';
export type * from './smokehouse.ts';
export type * from './ledger.ts';
export type * from './owner.ts';
export type * from './stations.ts';
export type * from './till.ts';
export type * from './words.ts';
