/**
 * Stations send their outboxes over TLS through a program that breaks the line, to a desk that is killed meanwhile.
 * Afterward the book is held against each station's own list: nothing lost, nothing doubled, each in its order.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { seededRandom } from '../../../src/core/stats/random.ts';
import type { Place } from '../../../src/trade/place.ts';
import { freePort } from '../../bridge/stations/open-line.ts';
import { tally, type Tally } from '../tally.ts';
import { startFaultProxy, type Faults } from './fault-proxy.ts';
import { rootBeside, startDesk, type RunningDesk } from './running-desk.ts';
import { openOutbox, post, type DeskPlace, type Outbox } from './station.ts';

export interface BadLine {
  stations: number;
  /** Entries of each station. */
  each: number;
  kills: number;
  seed: number;
}

const FAULTS: Faults = { cut: 0.02, truncate: 0.005, swallow: 0.001, hold: 0.03, holdMs: 30 };
const SHOP = { shopName: 'Bad Line', unit: 'lb' };

export async function lineRounds({ stations, each, kills, seed }: BadLine): Promise<Tally> {
  const counted = { ...tally('entries over a bad line'), rounds: stations };
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-bad-line-'));
  const bookPath = join(folder, 'shop.gambrel');
  const port = await freePort();
  let desk = startDesk(bookPath);
  await desk.call('shop.setUp', SHOP);
  await desk.call('stations.setUp', { on: true, address: '127.0.0.1', port, pins: false, by: 'MK' });
  await desk.listening();
  const proxy = await startFaultProxy({ host: '127.0.0.1', port }, FAULTS, seededRandom(seed));
  const direct: DeskPlace = { port, host: `127.0.0.1:${port}`, root: rootBeside(bookPath) };
  const outboxes: Outbox[] = [];
  for (let s = 1; s <= stations; s += 1) {
    const name = `S${s}`;
    const who = { ...(await pair(desk, direct, name)), name, count: each };
    outboxes.push(openOutbox({ ...direct, port: proxy.port }, who, seededRandom(seed + s)));
  }
  const sending = Promise.all(outboxes.map((one) => one.send()));
  let isDone = false;
  void sending.finally(() => (isDone = true));
  let killed = 0;
  for (let kill = 1; kill <= kills; kill += 1) {
    const due = (stations * each * kill) / (kills + 1);
    while (!isDone && sentBy(outboxes) < due) await new Promise((resolve) => setTimeout(resolve, 10));
    if (isDone) break;
    await desk.kill();
    killed += 1;
    desk = startDesk(bookPath);
    await desk.listening();
  }
  await sending;
  await desk.kill();
  proxy.close();
  compare(bookPath, outboxes, counted);
  rmSync(folder, { recursive: true });
  const sums = ['sent', 'unanswered', 'repeated', 'ahead'] as const;
  const told = sums.map((what) => `${sum(outboxes.map(({ counts }) => counts[what]))} ${what}`);
  const { lines, cut, truncated, held, swallowed } = proxy.counts;
  counted.notes.push(
    `${told.join(', ')}; ${lines} lines, ${cut} cut, ${truncated} truncated, ${held} held, ${swallowed} swallowed, ${killed} desks killed`,
  );
  return counted;
}

const sum = (numbers: readonly number[]) => numbers.reduce((all, one) => all + one, 0);
const sentBy = (outboxes: readonly Outbox[]) =>
  sum(outboxes.map(({ counts }) => counts.sent - counts.unanswered));

/** Pairs a device as its owner would. */
export async function pair(
  desk: RunningDesk,
  at: DeskPlace,
  name: string,
  place: Place = 'office',
): Promise<{ secret: string; lineage: string }> {
  const { code } = await desk.call<{ code: { code: string } }>('stations.newCode', {});
  const asked = (await post(at, '/pairing', code)) as { value: { request: string } };
  const { request } = asked.value;
  await desk.call('stations.allow', { request, name, place, language: 'en-US', by: 'MK' });
  const { value } = (await post(at, '/pairing/outcome', { request })) as { value: { secret: string } };
  const entrance = await post(at, '/station', {}, { secret: value.secret });
  return { secret: value.secret, lineage: (entrance as { value: { lineage: string } }).value.lineage };
}

/** Holds the book against what each station sent. */
function compare(bookPath: string, outboxes: readonly Outbox[], counted: Tally): void {
  const db = new Database(bookPath);
  const names = db
    .prepare<[], string>("SELECT name FROM hunter WHERE name LIKE 'Hunter S%' ORDER BY id")
    .pluck()
    .all();
  db.close();
  for (const { entries, faults } of outboxes) {
    const sent = entries.map(({ input }) => (input as { name: string }).name);
    const own = (sent[0] ?? '').replace(/\d+$/, '');
    const kept = names.filter((name) => name.startsWith(own));
    counted.entries += sent.length;
    counted.lost += sent.filter((name) => !kept.includes(name)).length;
    // Doubled, or out of order.
    if (kept.length !== sent.length || kept.some((name, at) => name !== sent[at])) counted.wrong += 1;
    counted.wrong += faults.length;
    counted.notes.push(...faults.slice(0, 3));
  }
}
