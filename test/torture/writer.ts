/**
 * A shop at work, to be killed: `node writer.ts BOOK SEED` opens the desk as the program does, enters one thing after
 * the other, and writes a line for each answer once it has it. It goes on until it is killed, or until `enough`
 * entries (third argument) were refused for want of room.
 */
import { existsSync, statSync, writeSync } from 'node:fs';
import { seededRandom } from '../../src/core/stats/random.ts';
import { openDesk } from '../../src/desk/desk.ts';
import type { Said } from './said.ts';

const [bookPath = '', seed = '1', enough = 'Infinity'] = process.argv.slice(2);
const chance = seededRandom(Number(seed));
const pick = (below: number): number => Math.floor(chance.uniform() * below);
/** Backed up every few entries, so that the kill also falls into a backup. */
const desk = await openDesk({ bookPath, upkeep: { backUpEvery: 90, lookEvery: 20 } });
let refused = 0;
const animals: number[] = [];
const weighings: number[] = [];

say({ kind: 'open', trouble: desk.trouble()?.code ?? null });
await ask('shop.setUp', { shopName: 'Torture', unit: 'lb' });
while (refused < Number(enough)) {
  await enter();
  // Lets the timers of the desk have their turn.
  await new Promise((resolve) => setImmediate(resolve));
}

async function enter(): Promise<void> {
  const animalId = animals.at(-1);
  const what = animalId === undefined || pick(8) === 0 ? 0 : 1 + pick(4);
  if (what === 0) {
    const name = `Hunter ${pick(1e9)}`;
    const taken = await ask<{ id: number; ticket: string }>('intake.takeIn', {
      hunter: { name }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
      weights: [{ stage: 'hanging', typed: '400' }],
    }); // prettier-ignore
    if (taken) {
      animals.push(taken.id);
      say({ kind: 'animal', id: taken.id, ticket: taken.ticket, hunter: name, log: log() });
    }
  } else if (what === 1) {
    const typed = `${1 + pick(90)}.50`;
    const paid = await ask<{ id: number }>('bills.pay', {
      animalId,
      kind: 'deposit',
      method: 'cash',
      typed,
      confirmed: true,
    });
    if (paid) say({ kind: 'payment', id: paid.id, minor: Math.round(Number(typed) * 100), log: log() });
  } else if (what === 2 && weighings.length > 0) {
    const weighingId = weighings.pop() ?? 0;
    const gone = await ask('table.void', { weighingId, reason: 'weighed twice' });
    if (gone) say({ kind: 'void', id: weighingId, log: log() });
  } else {
    const typed = `0.${10 + pick(89)}`;
    const kept = await ask<{ weighingId: number }>('table.weigh', {
      animalId, stage: 'cut', part: pick(2) ? 'bone' : 'trim', typed, note: 'x'.repeat(pick(400)), confirmed: true,
    }); // prettier-ignore
    if (kept) {
      weighings.push(kept.weighingId);
      say({ kind: 'weighing', id: kept.weighingId, typed, log: log() });
    }
  }
}

/** The value of an answer, or null for a refusal. */
async function ask<T = object>(name: string, input: object): Promise<T | null> {
  const answer = await desk.call(name, input);
  if (answer.ok) return answer.value as T;
  refused += 1;
  say({ kind: 'refused', code: answer.problem.code });
  return null;
}

/** Bytes of the log that are on the disk by now. */
function log(): number {
  return existsSync(`${bookPath}-wal`) ? statSync(`${bookPath}-wal`).size : 0;
}

function say(said: Said): void {
  writeSync(1, `${JSON.stringify(said)}\n`);
}
