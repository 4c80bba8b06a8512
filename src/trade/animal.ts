/** Terms recorded of an animal, shared by book, core and desk. */

/**
 * The condition of the animal on arrival: whole with its hide on, skinned, as bone-in quarters, as named primals,
 * or as boned meat.
 */
export const BROUGHT = ['whole', 'skinned', 'quarters', 'primals', 'boned'] as const;
export type Brought = (typeof BROUGHT)[number];

/** Whether one weight on the hook is the whole carcass; otherwise it came in pieces. */
export const isWholeCarcass = (brought: string | undefined): boolean =>
  brought === 'whole' || brought === 'skinned';

export const SEXES = ['male', 'female', 'unknown'] as const;
export type Sex = (typeof SEXES)[number];

export const AGES = ['young', 'yearling', 'adult', 'unknown'] as const;
export type Age = (typeof AGES)[number];

/** Whether an animal with its hide on has its lower legs, from knee and hock down. Most do. */
export const LEGS = ['on', 'off', 'unknown'] as const;
export type Legs = (typeof LEGS)[number];

/** The stage of the animal in the shop. `canceled`: its intake was a mistake. */
export type AnimalStage = 'hanging' | 'cutting' | 'packing' | 'ready' | 'released' | 'disposed' | 'canceled';

/** Whether nothing is done with the animal any more, unless somebody reopens it. */
export const hasLeft = ({ stage }: { stage: AnimalStage }): boolean =>
  stage === 'released' || stage === 'disposed' || stage === 'canceled';

/** A laboratory result; `none` withdraws one that was entered by mistake. */
export const TEST_RESULTS = ['positive', 'not detected', 'none'] as const;
export type TestResult = (typeof TEST_RESULTS)[number];

/** What was done about an animal whose meat a positive result reaches: its hunter called, the meat kept back, discarded, or brought back. */
export const AFFECTED_DEEDS = ['called', 'kept', 'discarded', 'returned'] as const;
export type AffectedDeed = (typeof AFFECTED_DEEDS)[number];
