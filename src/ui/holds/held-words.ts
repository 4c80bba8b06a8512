import type { HeldIn } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/cleaning.ts';
import { listText } from '../../words/list.ts';

/** @example heldList([{ ticket: '26-0004', positive: true }]) // '26-0004 tested positive' */
export function heldList(held: readonly HeldIn[]): string {
  return listText(held.map(({ ticket, positive }) => text.held({ ticket, positive })));
}
