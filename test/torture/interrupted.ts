/** Rounds of exports and imports that are cut short, by a kill or by closing the book under them. */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import { openDesk } from '../../src/desk/desk.ts';
import { listenTo } from './kills.ts';
import { entriesOf, linesOf, type Entry } from './said.ts';
import { tally, type Tally } from './tally.ts';
import { withTemporary } from './with-temporary.ts';
import { verify } from './verify.ts';
import { openOrGoBack } from './way-back.ts';

const CARRIER = join(import.meta.dirname, 'carrier.ts');
/** A book serves this many rounds, so that its exports grow. */
const ROUNDS_A_BOOK = 10;

export async function interruptedRounds(rounds: number, seed: number): Promise<Tally> {
  const counted = tally('export and import interrupted');
  const chance = seededRandom(seed);
  let folder = '';
  let entries: Entry[] = [];
  let cutExports = 0;
  for (let round = 0; round < rounds; round++) {
    if (round % ROUNDS_A_BOOK === 0) {
      if (folder) rmSync(folder, { recursive: true });
      folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
      entries = [];
    }
    const bookPath = join(folder, 'shop.gambrel');
    const temporary = join(folder, 'temporary');
    mkdirSync(temporary, { recursive: true });
    const now = await carryUntilKilled(bookPath, temporary, seed + round, chance);
    counted.rounds += 1;
    counted.entries += now.entries.length;
    entries = [...entries, ...now.entries];
    if (now.refused.length > 0) note(counted, `seed ${seed + round}: refused ${now.refused[0]}`);
    await withTemporary(temporary, async () => {
      const opened = await openOrGoBack(bookPath);
      if (opened.kind === 'stuck') counted.stuck += 1;
      if (opened.kind === 'restored') counted.restored += 1;
      if (readdirSync(temporary).length > 0) note(counted, `seed ${seed + round}: temporary files stayed`);
      cutExports += Number(await closeUnderExport(counted, bookPath, temporary));
    });
    const { lost, whole } = verify(bookPath, entries);
    counted.lost += lost.length;
    if (!whole || !importsAreWhole(bookPath)) note(counted, `seed ${seed + round}: a table came in by half`);
  }
  rmSync(folder, { recursive: true, force: true });
  counted.notes.push(`${cutExports} exports had the book closed under them`);
  return counted;
}

function note(counted: Tally, what: string): void {
  counted.wrong += 1;
  counted.notes.push(what);
}

async function carryUntilKilled(bookPath: string, temporary: string, seed: number, chance: RandomGenerator) {
  const child = spawn(process.execPath, [CARRIER, bookPath, String(seed)], {
    env: { ...process.env, TMPDIR: temporary, TEMP: temporary, TMP: temporary },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const { text, ended } = listenTo(child);
  const lines = 2 + Math.floor(chance.uniform() * 10);
  const ms = chance.uniform() * 60;
  let timed = false;
  child.stdout.on('data', () => {
    if (timed || linesOf(text.out).length < lines) return;
    timed = true;
    setTimeout(() => child.kill('SIGKILL'), ms);
  });
  await ended;
  if (child.signalCode !== 'SIGKILL') throw new Error(`The carrier ended by itself: ${text.err}`);
  const said = linesOf(text.out);
  return {
    entries: entriesOf(said),
    refused: said.flatMap((one) => (one.kind === 'refused' ? [one.code] : [])),
  };
}

/** Whether an export was cut: it must then be refused, leave no file, and leave one whole book. */
async function closeUnderExport(counted: Tally, bookPath: string, temporary: string): Promise<boolean> {
  const desk = await openDesk({ bookPath, upkeep: { backUpEvery: 1e9, lookEvery: 1e9 } });
  const packing = desk.call('export.create', { what: 'text' });
  await new Promise((done) => setImmediate(done));
  desk.close();
  const answer = await packing;
  if (existsSync(`${bookPath}-wal`)) note(counted, 'the log stayed beside a closed book');
  if (answer.ok) return false; // it was through already
  if (answer.problem.code !== 'book.other-opening')
    note(counted, `an export ended with ${answer.problem.code}`);
  if (readdirSync(temporary).length > 0) note(counted, 'an export left its file');
  return true;
}

/** Every table that was brought in is there with all its hunters, and no hunter of one that was not. */
function importsAreWhole(bookPath: string): boolean {
  const db = new Database(bookPath, { readonly: true });
  try {
    const came = db.prepare("SELECT count(*) FROM hunter WHERE name LIKE 'Import %'").pluck().get();
    const told = db.prepare('SELECT total(rows) FROM brought_in').pluck().get();
    return Number(came) === Number(told);
  } finally {
    db.close();
  }
}
