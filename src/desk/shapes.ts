/**
 * What the desk answers with: plain objects that survive structured clone and JSON.
 * Masses are grams, shares and fat are fractions, money is integer minor units, dates are `YYYY-MM-DD`,
 * moments are UTC ISO text. The window turns them into words and the shop's units.
 */

export type * from './shapes-animal.ts';
export type * from './shapes-bring.ts';
export type * from './shapes-fat.ts';
export type * from './shapes-backup.ts';
export type * from './shapes-bill.ts';
export type * from './shapes-costing.ts';
export type * from './shapes-grinder.ts';
export type * from './shapes-instructions.ts';
export type * from './shapes-weighing.ts';
export type * from './shapes-quote.ts';
export type * from './shapes-record.ts';
export type * from './shapes-shelf.ts';
export type * from './shapes-season.ts';
export type * from './shapes-shop.ts';
export type * from './shapes-words.ts';
