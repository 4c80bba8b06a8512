/** Rounds of a desk that is killed between the file of a photograph and its entry, or amid either. */
import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, utimesSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecordBook } from '../../../src/book/book.ts';
import { photoFolder, photoPath, photosIn, readPhoto } from '../../../src/book/file/photos/files.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { tidyPhotos } from '../../../src/desk/session/photo-keeping.ts';
import { tally, type Tally } from '../tally.ts';

const PHOTOGRAPHER = join(import.meta.dirname, 'photographer.ts');
/** Longer ago than a photograph waits for its entry, ms. */
const LONG_AGO = 3 * 24 * 60 * 60_000;

export async function photoRounds(rounds: number, seed: number): Promise<Tally> {
  const chance = seededRandom(seed);
  const counted = tally('killed while photographing');
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
  const bookPath = join(folder, 'shop.gambrel');
  const added: string[] = [];
  let lone = 0;
  for (let round = 0; round < rounds; round += 1) {
    const lines = 2 + Math.floor(chance.uniform() * 25);
    const said = await photographUntilKilled(bookPath, seed + round, lines, chance.uniform() * 40);
    const now = said.filter((line) => line.startsWith('added ')).map((line) => line.slice(6));
    added.push(...now);
    counted.rounds += 1;
    counted.entries += now.length;
    lone += judge(counted, bookPath, added);
  }
  rmSync(folder, { recursive: true, force: true });
  counted.notes.push(`${lone} files came without an entry, and went`);
  return counted;
}

/** @returns how many files without an entry were there, and are deleted */
function judge(counted: Tally, bookPath: string, added: readonly string[]): number {
  const book = openRecordBook(bookPath, new Date());
  try {
    const folder = photoFolder(bookPath);
    const rows = new Set(book.photographs.digests());
    counted.lost += added.filter((digest) => !rows.has(digest)).length;
    // No entry without its file, whole.
    counted.wrong += [...rows].filter((digest) => readPhoto(folder, digest).state !== 'here').length;
    const lone = [...photosIn(folder)].filter((digest) => !rows.has(digest));
    const old = new Date(Date.now() - LONG_AGO);
    for (const digest of photosIn(folder)) utimesSync(photoPath(folder, digest), old, old);
    tidyPhotos(book);
    const left = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.includes('.jpg'),
    );
    counted.wrong += Number(left.length !== rows.size);
    return lone.length;
  } finally {
    book.close();
  }
}

/** The lines that it wrote before it was killed, so many milliseconds after so many lines. */
function photographUntilKilled(bookPath: string, seed: number, lines: number, ms: number): Promise<string[]> {
  const child = spawn(process.execPath, [PHOTOGRAPHER, bookPath, String(seed)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let text = '';
  let isEnding = false;
  child.stdout.on('data', (piece: Buffer) => {
    text += piece.toString();
    if (isEnding || text.split('\n').length <= lines) return;
    isEnding = true;
    setTimeout(() => child.kill('SIGKILL'), ms);
  });
  return new Promise((resolve) => child.on('close', () => resolve(text.split('\n').slice(0, -1))));
}
