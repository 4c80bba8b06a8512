/**
 * A day on the floor: hunters arrive, some check in alone at a tablet, two counters take in and photograph tags, the cooler weighs,
 * three tables cut and photograph damage, the grinder grinds, the pickup window hands over; every entry goes over TLS through a
 * program that breaks the line, and the desk is killed once. The clock runs fast, so the desk looks as many times slower than it
 * is: waiting times are upper bounds.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '../../src/core/stats/random.ts';
import type { PhotoKind } from '../../src/trade/photo.ts';
import type { Place } from '../../src/trade/place.ts';
import { freePort } from '../bridge/stations/open-line.ts';
import { inventVisitors, type Visitor } from '../replay/visitors.ts';
import { startFaultProxy, type Faults } from '../torture/line/fault-proxy.ts';
import { pair } from '../torture/line/line-rounds.ts';
import { rootBeside, startDesk } from '../torture/line/running-desk.ts';
import { compare, type Compared } from './compare.ts';
import { floorStation, type FloorStation } from './floor-station.ts';
import { takePhoto } from './put-photo.ts';
import { queue } from './queue.ts';

export interface FloorDay {
  animals: number;
  /** Milliseconds of the run that a minute of the day takes. */
  minuteMs: number;
  seed: number;
}

export interface FloorResult extends Compared {
  /** Minutes that each hunter stood in line at the counter, and from the door until the ticket was there. */
  waited: number[];
  served: number[];
  entries: number;
  /** Time until the desk answered each entry, ms of the run. */
  answeredMs: number[];
  asked: number;
  unanswered: number;
  faults: string;
}

const FAULTS: Faults = { cut: 0.01, truncate: 0.003, swallow: 0.0005, hold: 0.02, holdMs: 20 };
const STATIONS: readonly (readonly [name: string, place: Place])[] = [
  ['Counter 1', 'counter'], ['Counter 2', 'counter'], ['Cooler door', 'cooler'], ['Table 1', 'table'],
  ['Table 2', 'table'], ['Table 3', 'table'], ['Grinder', 'grinder'], ['Pickup', 'pickup'], ['Check-in', 'hunter'],
]; // prettier-ignore
/** Lengths of work, minutes: our own invention, each drawn around it. */
const TAKES = {
  ownCheckIn: 4,
  ownIntake: 1.5,
  intake: 4,
  photo: 0.3,
  hang: 1,
  weigh: 1.2,
  pack: 4,
  grind: 5,
  handOver: 3,
};
/** Every so many hunters check in alone, and every so many animals have damage to photograph: our own invention. */
const OWN_EVERY = 3;
const DAMAGED_EVERY = 5;
/** Opening hours over which hunters arrive, minutes; most come around noon. */
const ARRIVE = 9 * 60;

interface Animal extends Visitor {
  id: number;
}

/** A hunter in line at the counter, with what was typed at the tablet, if anything. */
interface InLine extends Visitor {
  /** Minute of the day at the door, and at the end of the line. */
  came: number;
  stood: number;
  draftId?: number;
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
  const line = queue<InLine>();
  const atTablet = queue<InLine>();
  const [toHang, toCut, toGrind, toHandOver] = [
    queue<Animal>(),
    queue<Animal>(),
    queue<Animal>(),
    queue<Animal>(),
  ];
  const result = { waited: [] as number[], served: [] as number[] };
  let photosTaken = 0;

  async function arrive(): Promise<void> {
    const visitors = inventVisitors(count, seed).map((one) => ({ ...one, sample: '' }));
    const moments = visitors
      .map(() => (ARRIVE * (chance.uniform() + chance.uniform())) / 2)
      .sort((a, b) => a - b);
    for (const [i, visitor] of visitors.entries()) {
      const due = moments[i] ?? 0;
      await new Promise((resolve) => setTimeout(resolve, Math.max(0, due - minute()) * minuteMs));
      const one = { ...visitor, came: minute(), stood: minute() };
      if (i % OWN_EVERY === 0) atTablet.put(one);
      else line.put(one);
    }
    atTablet.end();
  }

  /** A hunter types alone, and then stands in line at the counter. */
  async function tablet(station: FloorStation): Promise<void> {
    for (let one = await atTablet.next(); one; one = await atTablet.next()) {
      await spend(TAKES.ownCheckIn);
      const { hunter, species, sex, tag } = one;
      const { id: draftId = 0 } = await station.ask('drafts.add', {
        language: 'en-US', ...hunter, species, sex, tag, killDate: null,
      }); // prettier-ignore
      line.put({ ...one, draftId, stood: minute() });
    }
  }

  const photograph = (station: FloorStation, animalId: number, kind: PhotoKind) =>
    station.photograph(animalId, kind, takePhoto((photosTaken += 1)));

  async function counter(station: FloorStation): Promise<void> {
    for (let one = await line.next(); one; one = await line.next()) {
      result.waited.push(minute() - one.stood);
      const { hunter, species, sex, brought, parts, tag, receivedLb, draftId } = one;
      await spend(draftId === undefined ? TAKES.intake : TAKES.ownIntake);
      const { id = 0 } = await station.enter('intake.takeIn', {
        hunter: { name: hunter.name }, species, sex, age: 'adult', brought, parts, tag,
        weights: [{ stage: 'received', typed: receivedLb }], ...(draftId !== undefined && { draftId }),
      }); // prettier-ignore
      result.served.push(minute() - one.came);
      await spend(TAKES.photo);
      await photograph(station, id, 'tag');
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
      if (one.id % DAMAGED_EVERY === 0) await photograph(station, one.id, 'damage');
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

  const cameIn = Promise.all([arrive(), powerCut(), ...at('hunter').map(tablet)]);
  const served = Promise.all(at('counter').map(counter));
  const hung = Promise.all(at('cooler').map(cooler));
  const cut = Promise.all(at('table').map(table));
  const ground = Promise.all(at('grinder').map(grinder));
  const [readying] = at('table');
  if (!readying) throw new Error('No table');
  const handed = Promise.all(at('pickup').map((one) => pickup(one, readying)));
  await cameIn;
  line.end();
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
