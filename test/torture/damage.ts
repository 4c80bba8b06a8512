/** Rounds of a closed book that is cut short, bent or overwritten: it opens whole, or a backup leads back. */
import { cpSync, mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { listBackups } from '../../src/book/file/backup.ts';
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import { openDesk } from '../../src/desk/desk.ts';
import { tally, type Tally } from './tally.ts';
import { digest } from './verify.ts';
import { openOrGoBack } from './way-back.ts';

/** Ways to spoil the file at `path`. */
const DAMAGES: Readonly<Record<string, (path: string, chance: RandomGenerator) => void>> = {
  'cut short': (path, chance) => truncateSync(path, Math.floor(chance.uniform() * statSync(path).size)),
  'one bit turned over': (path, chance) =>
    change(path, (bytes) => {
      const at = Math.floor(chance.uniform() * bytes.length);
      bytes[at] = (bytes[at] ?? 0) ^ (1 << Math.floor(chance.uniform() * 8));
    }),
  'a page overwritten': (path, chance) =>
    change(path, (bytes) => {
      const page = Math.floor(chance.uniform() * (bytes.length / 4096));
      bytes.fill(Math.floor(chance.uniform() * 256), page * 4096, (page + 1) * 4096);
    }),
};

export async function damageRounds(rounds: number, seed: number): Promise<Tally[]> {
  const chance = seededRandom(seed);
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
  const good = join(folder, 'good');
  const { states, last } = await makeBook(join(good, 'shop.gambrel'));
  const tallies = Object.keys(DAMAGES).map((name) => tally(name));
  for (let round = 0; round < rounds; round++) {
    const counted = tallies[round % tallies.length];
    if (!counted) break;
    const place = join(folder, `round ${round}`);
    cpSync(good, place, { recursive: true });
    const bookPath = join(place, 'shop.gambrel');
    DAMAGES[counted.name]?.(bookPath, chance);
    // Now and then the newest backup is spoilt as well, and an older one has to do.
    if (chance.uniform() < 0.25) DAMAGES['cut short']?.(listBackups(bookPath)[0]?.path ?? '', chance);
    const opened = await openOrGoBack(bookPath);
    counted.rounds += 1;
    if (opened.kind === 'stuck') counted.stuck += 1;
    else if (opened.kind === 'restored') counted.restored += 1;
    const now = opened.kind === 'stuck' ? '' : digest(bookPath);
    if (opened.kind === 'open' ? now !== last : !states.includes(now)) counted.wrong += 1;
    rmSync(place, { recursive: true });
  }
  rmSync(folder, { recursive: true });
  return tallies;
}

/** A book with some animals, closed cleanly, with two backups beside it; the fingerprints of its rows at each. */
async function makeBook(bookPath: string): Promise<{ states: string[]; last: string }> {
  let now = Date.parse('2026-10-10T15:00:00Z');
  const clock = () => new Date((now += 60_000));
  const desk = await openDesk({ bookPath, clock, upkeep: { backUpEvery: 1e9, lookEvery: 1e9 } });
  const call = async (name: string, input: object): Promise<void> => {
    const answer = await desk.call(name, input);
    if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.problem)}`);
  };
  await call('shop.setUp', { shopName: 'Torture', unit: 'lb' });
  const take = async (from: number, to: number): Promise<void> => {
    for (let n = from; n < to; n++)
      await call('intake.takeIn', {
        hunter: { name: `Hunter ${n}`, address: `${n} Ridge Road` }, species: 'elk', sex: 'male', age: 'adult',
        brought: 'skinned', weights: [{ stage: 'hanging', typed: String(300 + n) }],
      }); // prettier-ignore
  };
  await take(0, 40);
  await call('shop.backUp', {});
  const first = digest(bookPath);
  await take(40, 80);
  desk.close();
  const last = digest(bookPath);
  return { states: [first, last], last };
}

function change(path: string, work: (bytes: Buffer) => void): void {
  const bytes = readFileSync(path);
  work(bytes);
  writeFileSync(path, bytes);
}
