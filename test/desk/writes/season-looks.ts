/** The views of a season that the desk caches. */
import { copyFileSync, existsSync } from 'node:fs';
import type { CallName } from '../../../src/bridge/contract.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { BUSY_NOW } from '../busy-shop.ts';

const ELK = { species: 'elk' } as const;
const LOOKS: readonly [CallName, unknown][] = [
  ['season.yields', {}],
  ['season.yields', ELK],
  ['season.pounds', {}],
  ['season.compare', { a: ELK, b: { species: 'moose' } }],
  ['season.fat', {}],
  ['season.check', {}],
  ['season.flow', {}],
  ['costing.get', {}],
  ['fat.getNeeds', {}],
  ['grinder.get', {}],
];

export async function lookAtAll(desk: Desk): Promise<unknown[]> {
  const answers: unknown[] = [];
  for (const [name, input] of LOOKS) answers.push([name, rounded(await desk.call(name, input))]);
  return answers;
}

/** Sums in another order differ in their last digits. */
function rounded(answer: unknown): unknown {
  return JSON.parse(
    JSON.stringify(answer, (_, value: unknown) =>
      typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(9)) : value,
    ),
  ) as unknown;
}

/** The same asked of a desk that is opened now, on a copy of the book as it stands. */
export async function lookAnew(bookPath: string): Promise<unknown[]> {
  const copy = tempBookPath();
  for (const end of ['', '-wal']) if (existsSync(bookPath + end)) copyFileSync(bookPath + end, copy + end);
  const desk = await openDesk({ bookPath: copy, clock: () => new Date(BUSY_NOW) });
  const answers = await lookAtAll(desk);
  desk.close();
  return answers;
}
