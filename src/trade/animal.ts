/** What is recorded of an animal. The book, the core and the desk share these words. */

/** How the animal came in: whole in its hide, skinned, as bone-in quarters, as named primals, or as boned meat. */
export const BROUGHT = ['whole', 'skinned', 'quarters', 'primals', 'boned'] as const;
export type Brought = (typeof BROUGHT)[number];

/** Whether one weight on the hook is the whole carcass; anything else came in pieces. */
export const isWholeCarcass = (brought: string | undefined): boolean =>
  brought === 'whole' || brought === 'skinned';

export const SEXES = ['male', 'female', 'unknown'] as const;
export type Sex = (typeof SEXES)[number];

export const AGES = ['young', 'yearling', 'adult', 'unknown'] as const;
export type Age = (typeof AGES)[number];

/** Whether an animal in its hide has its lower legs, down from knee and hock. Most have. */
export const LEGS = ['on', 'off', 'unknown'] as const;
export type Legs = (typeof LEGS)[number];

/** Where the animal is on its way through the shop. */
export type AnimalStage = 'hanging' | 'cutting' | 'packing' | 'ready' | 'released' | 'disposed';

/** What a laboratory reported; `none` withdraws a result that was entered by mistake. */
export const TEST_RESULTS = ['positive', 'not detected', 'none'] as const;
export type TestResult = (typeof TEST_RESULTS)[number];

/** What was done about an animal whose meat a positive result reaches: its hunter called, the meat kept back, discarded, or brought back. */
export const AFFECTED_DEEDS = ['called', 'kept', 'discarded', 'returned'] as const;
export type AffectedDeed = (typeof AFFECTED_DEEDS)[number];
