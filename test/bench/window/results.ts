/** What was measured, as Markdown. */
import { middle } from '../timing.ts';
import { growthAnHour, grows, MOST_AN_HOUR } from './growth.ts';
import type { Act, Wait } from './hand.ts';
import type { Held } from './memory.ts';

export interface Measured {
  act: Act;
  waits: Wait[];
}

export const misses = ({ act, waits }: Measured): boolean =>
  middle(waits.map(({ answerMs }) => answerMs)) > act.barMs;

export function tableOf(measured: readonly Measured[]): string {
  const head = [
    'what',
    'answer, ms',
    'worst',
    'bar',
    '',
    'next paint, ms',
    'desk, ms',
    'calls',
    'long tasks, ms',
    'shift',
    'thread, ms',
  ];
  const rows = measured.map((one) => {
    const { act, waits } = one;
    const of = (figure: (wait: Wait) => number): number => middle(waits.map(figure));
    const longest = Math.max(0, ...waits.flatMap(({ longTasksMs }) => longTasksMs));
    const paint = waits.map(({ nextPaintMs }) => nextPaintMs ?? 0);
    return [
      act.name,
      ms(of(({ answerMs }) => answerMs)),
      ms(Math.max(...waits.map(({ answerMs }) => answerMs))),
      `≤ ${act.barMs}`,
      misses(one) ? '**misses**' : 'holds',
      middle(paint) < 16 ? '< 16' : middle(paint).toFixed(0),
      of(({ calls }) => calls.reduce((sum, { ms }) => sum + ms, 0)).toFixed(1),
      callsOf(waits),
      longest === 0 ? '' : `${of(({ longTasksMs }) => longTasksMs.length)}, longest ${longest.toFixed(0)}`,
      of(({ shift }) => shift).toFixed(3),
      of(({ threadMs }) => threadMs).toFixed(0),
    ];
  });
  return table(head, rows);
}

const ms = (time: number): string => (Number.isFinite(time) ? time.toFixed(0) : 'none');

/** The calls of a round in the middle by their number. @example '2: table.weigh, animals.get' */
function callsOf(waits: readonly Wait[]): string {
  const one = waits.toSorted((a, b) => a.calls.length - b.calls.length)[waits.length >> 1];
  const names = one?.calls.map(({ name }) => name) ?? [];
  const counted = [...new Set(names)].map((name) => {
    const times = names.filter((other) => other === name).length;
    return times === 1 ? name : `${times} × ${name}`;
  });
  return names.length === 0 ? '0' : `${names.length}: ${counted.join(', ')}`;
}

export function memoryTable(held: readonly Held[]): string {
  const row = (name: string, { heapMb, nodes, listeners }: Held, places = 0): string[] => [
    name,
    heapMb.toFixed(2),
    nodes.toFixed(places),
    listeners.toFixed(places),
  ];
  const rows = [
    ...held.map((one, hour) => row(`after hour ${hour + 1}`, one)),
    row('an hour adds', growthAnHour(held), 1),
    row('it may add', MOST_AN_HOUR),
  ];
  return `${table(['', 'heap, MB', 'DOM nodes', 'listeners'], rows)}\n\n${grows(held) ? '**It grows.**' : 'It does not grow.'}`;
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}
