import type { LoadPage } from '../../../bridge/contract.ts';
import { spanText } from '../../cooler/span.ts';
import { text } from '../../../words/compiled/window/smokehouse-load.ts';

/** Rows of the table that are shown above the one without a hold time. */
const ROWS = 3;

/**
 * What a load has to reach, in sentences. The figure of a Trichinella host stands alone: beside it, the lower ones of the table would
 * read as enough.
 */
export function reachLines({ target, hosts }: Pick<LoadPage, 'target' | 'hosts'>): string[] {
  const { rows, atOnceF, hostF, cooling } = target;
  const held = rows.filter(({ seconds }) => seconds > 0).slice(-ROWS);
  const cook =
    hostF === null
      ? [...held.map((row) => text.reachRow(row)), text.reachAtOnce({ f: atOnceF })]
      : [text.reachHost({ names: hosts.join(', '), f: Math.max(hostF, atOnceF) })];
  const cool = cooling.stages.map(({ fromF, toF, minutes }) =>
    text.stage({ from: fromF, to: toF, time: minutes === null ? null : spanText(minutes) }),
  );
  return [...cook, ...cool];
}
