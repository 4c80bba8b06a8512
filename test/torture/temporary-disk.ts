/** Rounds of exports onto a temporary disk without room: each is refused by its name, and the shop works on. */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { listBackups } from '../../src/book/file/backup.ts';
import { seededRandom } from '../../src/core/stats/random.ts';
import { openDesk, type Desk } from '../../src/desk/desk.ts';
import { smallDisk } from '../book/small-disk.ts';
import type { Entry } from './said.ts';
import { tally, type Tally } from './tally.ts';
import { verify } from './verify.ts';
import { openOrGoBack } from './way-back.ts';
import { withTemporary } from './with-temporary.ts';

const ANIMALS_BEFORE = 400;

export async function temporaryDiskRounds(rounds: number, seed: number): Promise<Tally> {
  const counted = tally('temporary disk full');
  const chance = seededRandom(seed);
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
  const bookPath = join(folder, 'shop.gambrel');
  const entries: Entry[] = [];
  let packed = 0;
  for (let round = 0; round < rounds; round++) {
    const disk = smallDisk(20 + Math.floor(chance.uniform() * 500));
    if (!disk) {
      counted.notes.push('this computer lets nobody mount a small disk: not tried');
      break;
    }
    try {
      await withTemporary(disk.path, async () => {
        const desk = await openDesk({ bookPath, upkeep: { backUpEvery: 1e9, lookEvery: 1e9 } });
        if (round === 0) await desk.call('shop.setUp', { shopName: 'Torture', unit: 'lb' });
        for (let n = round === 0 ? ANIMALS_BEFORE : 1; n > 0; n--) await takeIn(counted, desk, entries);
        for (const what of ['tables', 'text', 'book'] as const) {
          const answer = await desk.call('export.create', { what });
          if (answer.ok) packed += 1;
          else if (answer.problem.code !== 'temporary.full')
            note(counted, `${what} was refused with ${answer.problem.code}`);
          else if (readdirSync(disk.path).length > 0) note(counted, `${what} left a file`);
          await takeIn(counted, desk, entries);
        }
        const before = new Set(listBackups(bookPath).map(({ path }) => path));
        desk.close();
        if (listBackups(bookPath).every(({ path }) => before.has(path)))
          note(counted, 'closing made no backup');
      });
    } finally {
      disk.remove();
    }
    counted.rounds += 1;
    const opened = await openOrGoBack(bookPath);
    if (opened.kind === 'stuck') counted.stuck += 1;
    if (opened.kind === 'restored') counted.restored += 1;
    const { lost, whole } = verify(bookPath, entries);
    counted.lost += lost.length;
    if (!whole) counted.wrong += 1;
  }
  counted.entries = entries.length;
  counted.notes.push(`${packed} of ${counted.rounds * 3} exports found room`);
  rmSync(folder, { recursive: true, force: true });
  return counted;
}

function note(counted: Tally, what: string): void {
  counted.wrong += 1;
  counted.notes.push(what);
}

async function takeIn(counted: Tally, desk: Desk, entries: Entry[]): Promise<void> {
  const hunter = `Hunter ${entries.length}`;
  const answer = await desk.call('intake.takeIn', {
    hunter: { name: hunter, address: `${entries.length} Ridge Road` }, species: 'elk', sex: 'male', age: 'adult',
    brought: 'skinned', weights: [{ stage: 'hanging', typed: '400' }],
  }); // prettier-ignore
  if (!answer.ok) return note(counted, `an animal was refused with ${answer.problem.code}`);
  const { id, ticket } = answer.value as { id: number; ticket: string };
  entries.push({ kind: 'animal', id, ticket, hunter, log: 0 });
}
