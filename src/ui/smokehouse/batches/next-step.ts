/** What a batch of the smokehouse needs next. */
import type { MadeLine } from '../../../bridge/contract.ts';

export type NextStep = 'meat' | 'start' | 'weigh' | 'cook' | 'pack' | 'done';

/** A raw product goes from the stuffer to packing; one with meat left unpacked is packed on, which its page offers. */
export function nextStep({
  state,
  finish,
  sheet,
}: Pick<MadeLine, 'state' | 'finish'> & { sheet?: object | null }): NextStep {
  if (state === 'open') return sheet === null ? 'meat' : 'start';
  if (state === 'started') return 'weigh';
  if (state === 'stuffed') return finish === 'raw' ? 'pack' : 'cook';
  return state === 'cooked' ? 'pack' : 'done';
}
