/** Which parts are weighed at which stage. */
import * as v from 'valibot';
import { needed } from '../input/input.ts';
import { CUT_PARTS } from '../../trade/weighing.ts';

export const stage = v.picklist(
  ['live', 'dressed', 'received', 'hanging', 'primal', 'cut', 'packed'],
  'choice.stage',
);
export const part = v.picklist(['carcass', 'primal', ...CUT_PARTS, 'package'], 'choice.part');
/** Default: no particular primal. */
export const primal = v.optional(v.nullable(needed(40)), null);

const PARTS_AT: Readonly<Record<string, readonly string[]>> = {
  primal: ['primal'],
  cut: CUT_PARTS,
  packed: ['package'],
};

/** Whether a part is weighed at a stage: only the carcass is received and hung. */
export const isWeighedAt = (at: string, what: string): boolean =>
  (PARTS_AT[at] ?? ['carcass']).includes(what);

/** Stage, part and primal of a weight. */
export const partAt = v.pipe(
  v.object({ stage, part, primal }),
  v.check((to) => isWeighedAt(to.stage, to.part), 'choice.part'),
);
