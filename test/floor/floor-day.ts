/**
 * A day on the floor: hunters arrive, two counters take in, the cooler weighs, three tables cut, the grinder grinds, the pickup
 * window hands over; every entry goes over TLS through a program that breaks the line, and the desk is killed once. The clock
 * runs fast, so the desk looks as many times slower than it is: waiting times are upper bounds.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { seededRandom } from '../../src/core/stats/random.ts';
import type { Place } from '../../src/trade/place.ts';
import { freePort } from '../bridge/stations/open-line.ts';
import { inventVisitors, type Visitor } from '../replay/visitors.ts';
import { startFaultProxy, type Faults } from '../torture/line/fault-proxy.ts';
import { pair } from '../torture/line/line-rounds.ts';
import { rootBeside, startDesk } from '../torture/line/running-desk.ts';
import { floorStation, type FloorStation } from './floor-station.ts';
import { queue } from './queue.ts';

export interface FloorDay {
  animals: number;
  /** Milliseconds of the run that a minute of the day takes. */
  minuteMs: number;
  seed: number;
}

export interface FloorResult {
  /** Minutes that each hunter stood in line, and until the ticket was there. */
  waited: number[];
  served: number[];
  entries: number;
  /** Time until the desk answered each entry, ms of the run. */
  answeredMs: number[];
  asked: number;
  unanswered: number;
  faults: string;
  lost: number;
  doubled: number;
  outOfOrder: number;
}

const FAULTS: Faults = { cut: 0.01, truncate: 0.003, swallow: 0.0005, hold: 0.02, holdMs: 20 };
const STATIONS: readonly (readonly [name: string, place: Place])[] = [
  ['Counter 1', 'counter'], ['Counter 2', 'counter'], ['Cooler door', 'cooler'], ['Table 1', 'table'],
  ['Table 2', 'table'], ['Table 3', 'table'], ['Grinder', 'grinder'], ['Pickup', 'pickup'],
]; // prettier-ignore
/** Lengths of work, minutes: our own invention, each drawn around it. */
const TAKES = { intake: 4, hang: 1, weigh: 1.2, pack: 4, grind: 5, handOver: 3 };
/** Opening hours over which hunters arrive, minutes; most come around noon. */
const ARRIVE = 9 * 60;

interface Animal extends Visitor {
  id: number;
}

export async function floorDay({ animals: count, minuteMs, seed }: FloorDay): Promise<FloorResult> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-floor-'));
  const bookPath = join(folder, 'shop.gambrel');
  const port = await freePort();
  let desk = startDesk(bookPath);
  await desk.call('shop.setUp', { shopName: 'Oak Ridge', unit: 'lb' });
  // Each animal weighed in its trim only, as in a busy season.
  await desk.call('shop.saveSettings', { changes: { detailEvery: 1000 } });
  await desk.call('stations.setUp', { on: true, address: '127.0.0.1', port, pins: false, by: 'MK' });
  await desk.listening();
  const proxy = await startFaultProxy({ host: '127.0.0.1', port }, FAULTS, seededRandom(seed));
  const direct = { port, host: `127.0.0.1:${port}`, root: rootBeside(bookPath) };
  const stations: FloorStation[] = [];
  for (const [name, place] of STATIONS)
    stations.push(
      floorStation({ ...direct, port: proxy.port }, direct, {
        name,
        ...(await pair(desk, direct, name, place)),
      }),
    );
  const at = (place: Place) => stations.filter((_, i) => STATIONS[i]?.[1] === place);

  const chance = seededRandom(seed + 1);
  const began = performance.now();
  const minute = () => (performance.now() - began) / minuteMs;
  const spend = (minutes: number) =>
    new Promise<void>((resolve) => setTimeout(resolve, minutes * Math.exp(0.3 * chance.normal()) * minuteMs));
  const line = queue<Visitor & { came: number }>();
  const [toHang, toCut, toGrind, toHandOver] = [
    queue<Animal>(),
    queue<Animal>(),
    queue<Animal>(),
    queue<Animal>(),
  ];
  const result = { waited: [] as number[], served: [] as number[] };

  async function arrive(): Promise<void> {
    const visitors = inventVisitors(count, seed).map((one) => ({ ...one, sample: '' }));
    const moments = visitors
      .map(() => (ARRIVE * (chance.uniform() + chance.uniform())) / 2)
      .sort((a, b) => a - b);
    for (const [i, visitor] of visitors.entries()) {
      const due = moments[i] ?? 0;
      await new Promise((resolve) => setTimeout(resolve, Math.max(0, due - minute()) * minuteMs));
      line.put({ ...visitor, came: minute() });
    }
    line.end();
  }

  async function counter(station: FloorStation): Promise<void> {
    for (let one = await line.next(); one; one = await line.next()) {
      result.waited.push(minute() - one.came);
      await spend(TAKES.intake);
      const { hunter, species, sex, brought, parts, tag, receivedLb } = one;
      const { id = 0 } = await station.enter('intake.takeIn', {
        hunter: { name: hunter.name }, species, sex, age: 'adult', brought, parts, tag,
        weights: [{ stage: 'received', typed: receivedLb }],
      }); // prettier-ignore
      result.served.push(minute() - one.came);
      toHang.put({ ...one, id });
    }
  }

  async function cooler(station: FloorStation): Promise<void> {
    for (let one = await toHang.next(); one; one = await toHang.next()) {
      await spend(TAKES.hang);
      if (one.hangingLb)
        await station.enter('table.weigh', {
          animalId: one.id,
          stage: 'hanging',
          part: 'carcass',
          typed: one.hangingLb,
        });
      toCut.put(one);
    }
  }

  async function table(station: FloorStation): Promise<void> {
    for (let one = await toCut.next(); one; one = await toCut.next()) {
      await station.enter('animals.setStage', { id: one.id, stage: 'cutting' });
      for (const part of ['whole cuts', 'trim', 'bone'] as const) {
        await spend(TAKES.weigh);
        const typed = one.partsLb[part];
        if (typed) await station.enter('table.weigh', { animalId: one.id, stage: 'cut', part, typed });
      }
      await spend(TAKES.pack);
      toGrind.put(one);
    }
  }

  async function grinder(station: FloorStation): Promise<void> {
    for (let one = await toGrind.next(); one; one = await toGrind.next()) {
      const typed = one.partsLb.trim;
      if (typed) {
        const { id: batchId = 0 } = await station.ask('grinder.start', {
          animals: [{ id: one.id }], fat: 'none', targetFat: null, product: 'Ground',
        }); // prettier-ignore
        await station.enter('grinder.weighIn', { batchId, animalId: one.id, part: 'trim', typed });
        await spend(TAKES.grind);
        await station.enter('grinder.pack', {
          batchId,
          product: 'Ground',
          count: Math.ceil(Number(typed)),
          typed,
        });
        await station.enter('grinder.finish', { batchId });
      }
      toHandOver.put(one);
    }
  }

  async function pickup(station: FloorStation, readying: FloorStation): Promise<void> {
    for (let one = await toHandOver.next(); one; one = await toHandOver.next()) {
      await readying.enter('animals.setStage', {
        id: one.id,
        stage: 'ready',
        answer: 'weighed again',
        confirmed: true,
      });
      await spend(TAKES.handOver);
      await station.enter('pickup.release', { id: one.id, to: one.hunter.name });
    }
  }

  /** In the morning the desk is killed, and is away for ten minutes. */
  async function powerCut(): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve, (ARRIVE / 3) * minuteMs));
    await desk.kill();
    await new Promise((resolve) => setTimeout(resolve, 10 * minuteMs));
    desk = startDesk(bookPath);
    await desk.listening();
  }

  const served = Promise.all([arrive(), powerCut(), ...at('counter').map(counter)]);
  const hung = Promise.all(at('cooler').map(cooler));
  const cut = Promise.all(at('table').map(table));
  const ground = Promise.all(at('grinder').map(grinder));
  const [readying] = at('table');
  if (!readying) throw new Error('No table');
  const handed = Promise.all(at('pickup').map((one) => pickup(one, readying)));
  await served;
  toHang.end();
  await hung;
  toCut.end();
  await cut;
  toGrind.end();
  await ground;
  toHandOver.end();
  await handed;
  await desk.kill();
  proxy.close();
  for (const station of stations) station.close();
  const { cut: cuts, truncated, held, swallowed, lines } = proxy.counts;
  const compared = compare(bookPath, stations);
  rmSync(folder, { recursive: true });
  return {
    ...result,
    ...compared,
    entries: stations.reduce((sum, { entries }) => sum + entries.length, 0),
    answeredMs: stations.flatMap(({ counts }) => counts.waitedMs),
    asked: stations.reduce((sum, { counts }) => sum + counts.asked, 0),
    unanswered: stations.reduce((sum, { counts }) => sum + counts.unanswered, 0),
    faults: `${lines} lines, ${cuts} cut, ${truncated} truncated, ${held} held, ${swallowed} swallowed, 1 desk killed for 10 minutes`,
  };
}

/** Holds the book against each station's own list. */
function compare(bookPath: string, stations: readonly FloorStation[]) {
  const db = new Database(bookPath, { readonly: true });
  const kept = db
    .prepare<[], { line: string; entry: string }>(
      'SELECT l.line, e.entry FROM station_entry e JOIN station_line l ON l.id = e.line_id ORDER BY e.line_id, e.number',
    )
    .all();
  const weighings = db.prepare<[], number>('SELECT count(*) FROM weighing').pluck().get() ?? 0;
  db.close();
  let [lost, outOfOrder] = [0, 0];
  let saved = 0;
  for (const { entries } of stations) {
    const own = entries.map(({ id }) => id);
    const inBook = kept.filter(({ line }) => line === entries[0]?.line).map(({ entry }) => entry);
    lost += own.filter((id) => !inBook.includes(id)).length;
    if (inBook.join() !== own.join()) outOfOrder += 1;
    saved += entries
      .filter(({ outcome }) => outcome.state === 'saved')
      .reduce((sum, { name }) => sum + weighingsOf(name), 0);
  }
  return { lost, outOfOrder, doubled: weighings - saved };
}

/** Rows that one entry adds to the table of weighings. */
function weighingsOf(call: string): number {
  return ['table.weigh', 'intake.takeIn', 'grinder.weighIn', 'grinder.pack'].includes(call) ? 1 : 0;
}
