/** Rounds on a disk that fills up while the shop works: what was acknowledged stays, the rest is refused in words. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '../../src/core/stats/random.ts';
import { smallDisk, type SmallDisk } from '../book/small-disk.ts';
import { listenTo } from './kills.ts';
import { entriesOf, linesOf } from './said.ts';
import { tally, type Tally } from './tally.ts';
import { verify } from './verify.ts';
import { openOrGoBack } from './way-back.ts';

const WRITER = join(import.meta.dirname, 'writer.ts');
const REFUSALS = 25;
const TOO_LONG_MS = 60_000;
/** What a refusal may say on a disk without room. */
const IN_WORDS = ['book.full', 'book.drive', 'book.folder', 'book.backup'];

export async function fullDiskRounds(rounds: number, seed: number): Promise<Tally> {
  const counted = tally('full disk');
  const chance = seededRandom(seed);
  for (let round = 0; round < rounds; round++) {
    const kilobytes = 1500 + Math.floor(chance.uniform() * 2500);
    const disk = smallDisk(kilobytes);
    const folder = disk?.path ?? mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
    try {
      await fillUp(counted, folder, seed + round, disk, kilobytes);
    } finally {
      if (disk) disk.remove();
      else rmSync(folder, { recursive: true, force: true });
    }
  }
  return counted;
}

async function fillUp(
  counted: Tally,
  folder: string,
  seed: number,
  disk: SmallDisk | null,
  kilobytes: number,
): Promise<void> {
  const bookPath = join(folder, 'shop.gambrel');
  const ballast = join(folder, 'ballast');
  writeFileSync(ballast, Buffer.alloc(600_000, 1));
  const args = [WRITER, bookPath, String(seed), String(REFUSALS)];
  // Without a small disk no file may grow beyond a size, which refuses writing much as a full disk does.
  const child = disk
    ? spawn(process.execPath, args)
    : spawn('sh', ['-c', `ulimit -f ${kilobytes}; exec "$0" "$@"`, process.execPath, ...args]);
  const { text, ended } = listenTo(child);
  const late = setTimeout(() => child.kill('SIGKILL'), TOO_LONG_MS);
  let refusals = 0;
  child.stdout?.on('data', () => {
    refusals = linesOf(text.out).filter(({ kind }) => kind === 'refused').length;
    if (refusals >= REFUSALS) child.kill('SIGKILL');
  });
  await ended;
  clearTimeout(late);
  const said = linesOf(text.out);
  const entries = entriesOf(said);
  counted.rounds += 1;
  counted.entries += entries.length;
  const strange = said.filter((one) => one.kind === 'refused' && !IN_WORDS.includes(one.code));
  if (refusals < REFUSALS)
    counted.notes.push(`seed ${seed}: only ${refusals} refusals. ${text.err.slice(0, 300)}`);
  if (strange.length > 0) counted.notes.push(`seed ${seed}: refused with ${JSON.stringify(strange[0])}`);
  if (refusals < REFUSALS || strange.length > 0) counted.wrong += 1;
  rmSync(ballast);
  const opened = await openOrGoBack(bookPath);
  if (opened.kind === 'stuck') counted.stuck += 1;
  if (opened.kind === 'restored') counted.restored += 1;
  const { lost, whole } = verify(bookPath, entries);
  counted.lost += lost.length;
  if (!whole) counted.wrong += 1;
}
