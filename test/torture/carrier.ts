/**
 * A shop that takes tables in and out while it works, to be killed: `node carrier.ts BOOK SEED` brings in a table,
 * packs the book, and takes animals in meanwhile, and writes a line for each animal that was acknowledged.
 */
import { writeSync } from 'node:fs';
import { seededRandom } from '../../src/core/stats/random.ts';
import { openDesk } from '../../src/desk/desk.ts';
import type { Said } from './said.ts';

const [bookPath = '', seed = '1'] = process.argv.slice(2);
const chance = seededRandom(Number(seed));
const desk = await openDesk({ bookPath, upkeep: { backUpEvery: 90, lookEvery: 20 } });
say({ kind: 'open', trouble: desk.trouble()?.code ?? null });
await desk.call('shop.setUp', { shopName: 'Torture', unit: 'lb' });
for (let round = 0; ; round++) {
  const rows = 50 + Math.floor(chance.uniform() * 400);
  const packing = desk.call('export.create', { what: round % 2 ? 'tables' : 'text' });
  await takeIn();
  await bringIn(round, rows);
  await takeIn();
  await packing;
}

async function takeIn(): Promise<void> {
  const hunter = `Hunter ${Math.floor(chance.uniform() * 1e9)}`;
  const answer = await desk.call('intake.takeIn', {
    hunter: { name: hunter }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
    weights: [{ stage: 'hanging', typed: '400' }],
  }); // prettier-ignore
  if (!answer.ok) return say({ kind: 'refused', code: answer.problem.code });
  const { id, ticket } = answer.value as { id: number; ticket: string };
  say({ kind: 'animal', id, ticket, hunter, log: 0 });
}

async function bringIn(round: number, rows: number): Promise<void> {
  const name = (n: number): string => `Import ${seed} ${round} ${n}`;
  const table = `Name,Phone\n${Array.from({ length: rows }, (_, n) => `${name(n)},555-${round}-${n}\n`).join('')}`;
  const { upload } = (await ask('import.begin', { name: 'old.csv' })) as { upload: number };
  await ask('import.addPiece', { upload, from: 0, base64: Buffer.from(table).toString('base64') });
  const { layout } = (await ask('import.preview', { upload, kind: 'hunters' })) as { layout: object };
  await ask('import.run', { upload, kind: 'hunters', layout, confirmed: true });
}

async function ask(name: string, input: object): Promise<unknown> {
  const answer = await desk.call(name, input);
  if (answer.ok) return answer.value;
  say({ kind: 'refused', code: `${name} ${answer.problem.code}` });
  throw new Error(`${name} ${answer.problem.code}`);
}

function say(said: Said): void {
  writeSync(1, `${JSON.stringify(said)}\n`);
}
