/** Rounds of a writing desk that is killed at a random moment, and of one whose power is cut. */
import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { listBackups } from '../../src/book/file/backup.ts';
import { checkCopy } from '../../src/book/file/backup-check.ts';
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import { entriesOf, linesOf, type Entry, type Said } from './said.ts';
import { tally, type Tally } from './tally.ts';
import { verify } from './verify.ts';
import { openOrGoBack } from './way-back.ts';

const WRITER = join(import.meta.dirname, 'writer.ts');
/** A book serves this many rounds, so that small and grown books are both hit. */
const ROUNDS_A_BOOK = 20;

export async function killRounds(rounds: number, seed: number): Promise<Tally[]> {
  const chance = seededRandom(seed);
  const killed = tally('killed while writing');
  const cut = tally('power cut while writing');
  let folder = '';
  let before: Entry[] = [];
  let caughtOpening = 0;
  for (let round = 0; round < rounds; round++) {
    if (round % ROUNDS_A_BOOK === 0) {
      if (folder) rmSync(folder, { recursive: true });
      folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
      before = [];
    }
    const bookPath = join(folder, 'shop.gambrel');
    const said = await writeUntilKilled(bookPath, seed + round, momentOf(chance));
    if (!said.some(({ kind }) => kind === 'open')) caughtOpening += 1;
    const now = entriesOf(said);
    const counted = chance.uniform() < 1 / 3 ? cut : killed;
    if (counted === cut) loseUnwritten(bookPath, now.at(-1)?.log ?? Infinity, chance);
    await judge(counted, bookPath, [...before, ...now]);
    counted.entries += now.length;
    before = [...before, ...now];
  }
  rmSync(folder, { recursive: true, force: true });
  killed.notes.push(`${caughtOpening} of all ${rounds} kills fell before the book was open`);
  return [killed, cut];
}

/** When to kill: so many milliseconds after so many lines; counted in lines, so that a slow computer is killed amid work as well. */
interface Moment {
  lines: number;
  ms: number;
}

/** Mostly amid the writing, now and then while the program starts. */
function momentOf(chance: RandomGenerator): Moment {
  return chance.uniform() < 1 / 8
    ? { lines: 0, ms: chance.uniform() * 900 }
    : { lines: 1 + Math.floor(chance.uniform() * 30), ms: chance.uniform() * 60 };
}

async function writeUntilKilled(bookPath: string, seed: number, { lines, ms }: Moment): Promise<Said[]> {
  const child = spawn(process.execPath, [WRITER, bookPath, String(seed)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const { text, ended } = listenTo(child);
  let timed = false;
  const killInTime = (): void => {
    if (timed || linesOf(text.out).length < lines) return;
    timed = true;
    setTimeout(() => child.kill('SIGKILL'), ms);
  };
  killInTime();
  child.stdout.on('data', killInTime);
  await ended;
  if (child.signalCode !== 'SIGKILL') throw new Error(`The writer ended by itself: ${text.err}`);
  return linesOf(text.out);
}

/** All that a child says, until its pipes are closed. */
export function listenTo(child: ChildProcess): { text: { out: string; err: string }; ended: Promise<void> } {
  const text = { out: '', err: '' };
  child.stdout?.on('data', (piece: Buffer) => (text.out += piece.toString()));
  child.stderr?.on('data', (piece: Buffer) => (text.err += piece.toString()));
  return { text, ended: new Promise((done) => child.once('close', () => done())) };
}

/**
 * What a power cut leaves: of the log, all that was flushed before the last acknowledgement, and of the rest any
 * part, the end of which may be nonsense.
 */
function loseUnwritten(bookPath: string, flushed: number, chance: RandomGenerator): void {
  const log = `${bookPath}-wal`;
  if (!existsSync(log) || statSync(log).size <= flushed) return;
  const bytes = readFileSync(log);
  const kept = flushed + Math.floor(chance.uniform() * (bytes.length - flushed));
  if (chance.uniform() < 0.5) writeFileSync(log, bytes.subarray(0, kept));
  else writeFileSync(log, bytes.fill(Math.floor(chance.uniform() * 256), kept));
  // The index of the log is memory, and gone with the power.
  rmSync(`${bookPath}-shm`, { force: true });
}

/** Reopens the book and looks for all that was acknowledged; each finished backup must open as well. */
async function judge(counted: Tally, bookPath: string, entries: readonly Entry[]): Promise<void> {
  counted.rounds += 1;
  const opened = await openOrGoBack(bookPath);
  if (opened.kind === 'stuck') counted.stuck += 1;
  if (opened.kind === 'restored') counted.restored += 1;
  const { lost, whole } = verify(bookPath, entries);
  counted.lost += lost.length;
  if (!whole) counted.wrong += 1;
  for (const { path } of listBackups(bookPath).slice(0, 3)) checkCopy(path, null);
}
