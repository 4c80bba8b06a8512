/**
 * Rounds of a desk that writes while its book is fed to a real server over a bad line, and something is taken away: the desk, the
 * feeder, the server, the line, the server's last hours, the room on its disk. After each, the ledger must be the book row by row, with
 * each change taken once, or say that it is not this book's.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecordBook } from '../../../src/book/book.ts';
import { backUp } from '../../../src/book/file/backup.ts';
import { seededRandom, type RandomGenerator } from '../../../src/core/stats/random.ts';
import { prepare } from '../../../src/ledger/server/prepare.ts';
import type { Server } from '../../../src/ledger/server/server.ts';
import { bookRows, differences, ledgerRows } from '../../ledger/compare.ts';
import { OWNER, startServer, type RealServer } from '../../ledger/server/real-server.ts';
import { listenTo } from '../kills.ts';
import { startFaultProxy, type Faults, type FaultProxy } from '../line/fault-proxy.ts';
import { entriesOf, linesOf } from '../said.ts';
import { tally, type Tally } from '../tally.ts';
import { smallRoom } from './small-room.ts';

const [WRITER, FEEDER] = ['../writer.ts', 'feeder-child.ts'].map((name) => join(import.meta.dirname, name));
/** The chance of each fault for a piece of data. */
const BAD_LINE: Faults = { cut: 0.03, truncate: 0.02, hold: 0.1, holdMs: 30, swallow: 0 };
const GOOD_LINE: Faults = { cut: 0, truncate: 0, hold: 0, holdMs: 0, swallow: 0 };
/** The ledger is given this long to become even after everything is back, ms: a computer that is busy with other work is slow. */
const EVEN_WITHIN = 300_000;
/** Started and not ended yet: a round that fails leaves none behind. */
const running = new Set<Child>();

/** The names of the rounds, in the order in which they take turns. */
const KINDS = [
  'desk killed while fed',
  'feeder killed',
  'server killed',
  'line cut and answers lost',
  'server set back to yesterday',
  'server’s disk full',
  'book set back to a backup',
] as const;
type Kind = (typeof KINDS)[number];

interface Place {
  server: RealServer;
  proxy: FaultProxy;
  faults: Faults;
  database: string;
  bookPath: string;
  /** The branch that the book feeds. */
  branch: number;
  chance: RandomGenerator;
}

export async function ledgerRounds(rounds: number, seed: number): Promise<Tally[]> {
  const chance = seededRandom(seed);
  const tallies = new Map(KINDS.map((kind) => [kind, tally(kind)]));
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-torture-'));
  const server = await startServer();
  const faults = { ...GOOD_LINE };
  const proxy = await startFaultProxy({ host: '127.0.0.1', port: server.port }, faults, chance);
  const place: Place = {
    server, proxy, faults, chance, branch: 1, database: await server.newDatabase(), bookPath: join(folder, 'shop.gambrel'),
  }; // prettier-ignore
  try {
    await asOwner(place, prepare);
    const book = openRecordBook(place.bookPath, new Date());
    book.change(() => book.feed.begin());
    book.close();
    for (let round = 0; round < rounds; round++) {
      const kind = KINDS[round % KINDS.length] as Kind;
      const counted = tallies.get(kind) as Tally;
      await oneRound(kind, place, counted, seed + round);
    }
    const { lines, cut, truncated, held } = proxy.counts;
    tallies
      .get('line cut and answers lost')
      ?.notes.push(`of all rounds: ${lines} lines, ${cut} cut, ${truncated} truncated, ${held} held`);
    return [...tallies.values()];
  } finally {
    for (const child of running) await child.kill();
    proxy.close();
    await server.remove();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function oneRound(kind: Kind, place: Place, counted: Tally, seed: number): Promise<void> {
  const { server, proxy, bookPath, chance } = place;
  const amid = (): Promise<void> =>
    new Promise((resolve) => setTimeout(resolve, 100 + chance.uniform() * 900));
  Object.assign(place.faults, BAD_LINE);
  if (kind === 'server set back to yesterday') await restarted(server, () => server.keep());
  if (kind === 'book set back to a backup') copyBook(bookPath, `${bookPath}.earlier`);
  const writer = run(WRITER, [bookPath, String(seed)]);
  let feeder = startFeeding(place);
  await writer.has(({ length }) => length > 3 + chance.uniform() * 20);
  switch (kind) {
    case 'desk killed while fed':
    case 'book set back to a backup':
      await amid();
      break;
    case 'feeder killed':
      for (let kills = 0; kills < 3; kills++) {
        await amid();
        await feeder.kill();
        feeder = startFeeding(place);
      }
      break;
    case 'server killed':
      await amid();
      await server.kill();
      await amid();
      await server.start();
      break;
    case 'line cut and answers lost':
      proxy.loseAnswers(true);
      await amid();
      proxy.loseAnswers(false);
      proxy.cutOff(true);
      await amid();
      proxy.cutOff(false);
      break;
    case 'server set back to yesterday':
      await amid();
      await server.kill();
      server.backToKept();
      await server.start();
      break;
    case 'server’s disk full':
      await smallRoom(place, amid, counted);
      break;
  }
  await writer.kill();
  counted.rounds += 1;
  counted.entries += entriesOf(linesOf(writer.text.out)).length;
  // What is left to send meets the faults a while longer, and not to its end.
  await amid();
  Object.assign(place.faults, GOOD_LINE);
  if (kind === 'book set back to a backup') feeder = await setBack(place, feeder, counted);
  await judge(place, feeder, counted);
  await feeder.kill();
}

/** The feeder says that this is not the ledger's book any more, and sends nothing; the book goes on as a new branch. */
async function setBack(place: Place, feeder: Feeding, counted: Tally): Promise<Feeding> {
  const { bookPath } = place;
  // All of it has to be sent, or the ledger knows no more than the earlier book.
  await feeder.until('even');
  await feeder.kill();
  const before = await ledgerOf(place, `${bookPath}`);
  copyBook(`${bookPath}.earlier`, bookPath);
  const stopped = startFeeding(place);
  const said = await stopped.until('stopped');
  await stopped.kill();
  if (!['ahead', 'fork'].includes(said)) counted.wrong += 1;
  if (differences(before, await ledgerOf(place, bookPath)).length > 0) counted.wrong += 1;
  place.branch += 1;
  const book = openRecordBook(bookPath, new Date());
  book.change(() => book.feed.begin());
  book.close();
  counted.restored += 1;
  return startFeeding(place);
}

/** The ledger is the book, and each change was taken once. */
async function judge(place: Place, feeder: Feeding, counted: Tally): Promise<void> {
  try {
    await feeder.until('even');
  } catch (error) {
    counted.stuck += 1;
    counted.notes.push(
      `${String(error)}; ${feeder.text.out.split('\n').slice(-4).join(' ')} ${feeder.text.err}`,
    );
    return;
  }
  const found = differences(bookRows(place.bookPath), await ledgerOf(place, place.bookPath));
  if (found.length > 0) {
    counted.lost += found.length;
    counted.notes.push(found.join('; '));
  }
  const taken = await asOwner(place, async (owner) =>
    owner.rows(
      `SELECT t.since, t.upto FROM ledger.taken t JOIN ledger.shop s USING (shop) WHERE s.branch = $1 ORDER BY t.upto`,
      [place.branch],
    ),
  );
  if (taken.some(([since], i) => since !== (taken[i - 1]?.[1] ?? 0))) counted.wrong += 1;
}

async function ledgerOf(place: Place, path: string): Promise<Map<string, string[]>> {
  return asOwner(place, async (owner) => {
    const [row] = await owner.rows('SELECT shop FROM ledger.shop WHERE branch = $1', [place.branch]);
    return ledgerRows(owner, Number(row?.[0]), path);
  });
}

async function asOwner<T>({ server, database }: Place, work: (owner: Server) => Promise<T>): Promise<T> {
  const owner = await server.as(database, OWNER);
  try {
    return await work(owner);
  } finally {
    await owner.end();
  }
}

async function restarted(server: RealServer, work: () => void): Promise<void> {
  await server.kill();
  work();
  await server.start();
}

/** As a backup does: all that was acknowledged by now. */
function copyBook(from: string, to: string): void {
  const book = openRecordBook(from, new Date());
  const { path } = backUp(book.db, from, new Date());
  book.close();
  for (const ending of ['-wal', '-shm']) rmSync(to + ending, { force: true });
  copyFileSync(path, to);
}

interface Child {
  text: { out: string; err: string };
  /** Waits until what it said fits. */
  has(fits: (lines: string[]) => boolean): Promise<void>;
  kill(): Promise<void>;
}

function run(script: string | undefined, args: string[]): Child {
  const child: ChildProcess = spawn(process.execPath, [script ?? '', ...args], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const { text, ended } = listenTo(child);
  const started: Child = {
    text,
    async has(fits) {
      const until = Date.now() + EVEN_WITHIN;
      while (!fits(text.out.split('\n'))) {
        if (child.exitCode !== null) throw new Error(`it ended by itself: ${text.err}`);
        if (Date.now() > until) throw new Error('it took too long');
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    },
    async kill() {
      running.delete(started);
      child.kill('SIGKILL');
      await ended;
    },
  };
  running.add(started);
  return started;
}

type Feeding = Child & { until(kind: 'even' | 'stopped'): Promise<string> };

function startFeeding({ bookPath, proxy, database, branch }: Place): Feeding {
  const child = run(FEEDER, [bookPath, String(proxy.port), database, String(branch)]);
  return {
    ...child,
    /** Twice in a row: the first may have been on its way before the last change. @returns why it stopped */
    async until(kind) {
      const from = child.text.out.length;
      const marked = `{"kind":"${kind}"`;
      const wanted = kind === 'even' ? 2 : 1;
      const said = (): string[] =>
        child.text.out
          .slice(kind === 'even' ? from : 0)
          .split('\n')
          .filter((line) => line.startsWith(marked));
      await child.has(() => said().length >= wanted);
      return String((JSON.parse(said()[0] ?? '{}') as { why?: string }).why ?? '');
    },
  };
}
