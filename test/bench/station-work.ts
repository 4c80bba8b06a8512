/** Ten stations that type at once on the large book: how long a save takes at the device, and what a station costs the desk in memory. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { Agent, get } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort } from '../bridge/stations/open-line.ts';
import { floorStation, type FloorStation } from '../floor/floor-station.ts';
import { pair } from '../torture/line/line-rounds.ts';
import { rootBeside, startDesk, type RunningDesk } from '../torture/line/running-desk.ts';
import type { DeskPlace } from '../torture/line/station.ts';
import { largeBook } from './large-book.ts';
import { memoryMb } from './memory-of.ts';
import { judged, type Figure } from './timing.ts';

const STATIONS = 10;
/** Weights of each station. */
const EACH = 100;
/** Between two weights of one station, ms: faster than anybody weighs. */
const PAUSE_MS = 250;
/** After so long the desk's memory is read, ms. */
const SETTLE_MS = 3_000;

const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export async function stationWork(seasons: number): Promise<Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-bench-'));
  const path = join(folder, 'large.gambrel');
  copyFileSync(await largeBook(seasons), path);
  const desk = startDesk(path);
  const agent = new Agent({ keepAlive: true });
  try {
    const port = await freePort();
    await desk.call('stations.setUp', { on: true, address: '127.0.0.1', port, pins: false, by: 'MK' });
    await desk.listening();
    const place: DeskPlace = { port, host: `127.0.0.1:${port}`, root: rootBeside(path) };
    // What all stations share is loaded by the first: what a species gave, pages of the book, code.
    await typing(await paired(desk, place, ['warm']), EACH);
    await wait(SETTLE_MS);
    const before = memoryMb(desk.pid);
    const stations = await paired(
      desk,
      place,
      Array.from({ length: STATIONS }, (_, n) => `S${n}`),
    );
    for (const { secret } of stations) follow(place, secret, agent);
    await wait(SETTLE_MS);
    const each = (memoryMb(desk.pid) - before) / STATIONS;
    const sorted = (await typing(stations, EACH)).toSorted((a, b) => a - b);
    const at = (share: number): number => sorted[Math.ceil(share * sorted.length) - 1] ?? NaN;
    const name = `${STATIONS} stations type at once: a save, from the device and back`;
    return [
      judged({
        name: 'memory of the desk for each connected station',
        value: each,
        unit: 'MB',
        bar: { mb: 5 },
      }),
      judged({ name: `${name}, half within`, value: at(0.5), unit: 'ms' }),
      judged({ name: `${name}, 99 of 100 within`, value: at(0.99), unit: 'ms', bar: { ms: 50 } }),
    ];
  } finally {
    agent.destroy();
    await desk.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

type Paired = FloorStation & { secret: string };

async function paired(desk: RunningDesk, place: DeskPlace, names: readonly string[]): Promise<Paired[]> {
  const stations: Paired[] = [];
  for (const name of names) {
    const who = await pair(desk, place, name);
    stations.push({ ...floorStation(place, place, { ...who, name }), secret: who.secret });
  }
  return stations;
}

/** Each station takes an elk in and weighs it piece by piece. @returns milliseconds of each weight */
async function typing(stations: readonly Paired[], count: number): Promise<number[]> {
  const weighed = stations.map(async (station) => {
    const { id: animalId = 0 } = await station.enter('intake.takeIn', {
      hunter: { name: `Hunter ${station.name}` }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
      weights: [{ stage: 'hanging', typed: '400' }],
    }); // prettier-ignore
    station.counts.waitedMs.length = 0;
    for (let n = 0; n < count; n++) {
      await wait(PAUSE_MS * (0.5 + Math.random()));
      const typed = (0.5 + n / 50).toFixed(2);
      await station.enter('table.weigh', { animalId, stage: 'cut', part: 'trim', typed });
    }
    station.close();
    return station.counts.waitedMs;
  });
  return (await Promise.all(weighed)).flat();
}

/** Keeps a change stream open, as every station does. */
function follow({ port, host, root }: DeskPlace, secret: string, agent: Agent): void {
  const headers = { host, origin: `https://${host}`, authorization: `Bearer ${secret}` };
  const asked = get({ host: '127.0.0.1', port, ca: root, path: '/events', agent, headers }, (answer) =>
    answer.resume(),
  );
  // It ends with the desk.
  asked.on('error', () => undefined);
}
