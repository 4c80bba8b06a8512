/** What a batch of the smokehouse needs next. */
import type { MadeLine } from '../../../bridge/contract.ts';

export type NextStep = 'meat' | 'start' | 'weigh' | 'cook' | 'out' | 'pack' | 'done';

/**
 * A raw product goes from the stuffer to packing; one with meat left unpacked is packed on, which its page offers. One that is in a load
 * waits for its weight, unless somebody decided to cook it again.
 */
export function nextStep({
  state,
  finish,
  sheet,
  proof,
}: Pick<MadeLine, 'state' | 'finish' | 'proof'> & { sheet?: object | null }): NextStep {
  if (state === 'open') return sheet === null ? 'meat' : 'start';
  if (state === 'started') return 'weigh';
  if (state === 'stuffed') {
    if (finish === 'raw') return 'pack';
    return proof.loads.at(-1)?.again === false ? 'out' : 'cook';
  }
  return state === 'cooked' ? 'pack' : 'done';
}
