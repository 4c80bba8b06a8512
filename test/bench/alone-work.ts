/** One computer alone: how long the built program takes to start and what it then holds, with stations never switched on, and with them. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort } from '../bridge/stations/open-line.ts';
import { deskLine } from '../e2e/desk-line.ts';
import { serve } from '../e2e/served.ts';
import { memoryMb } from './memory-of.ts';
import { judged, middle, type Figure } from './timing.ts';

const ROUNDS = 7;
/** After so long the program's memory is read, ms. */
const SETTLE_MS = 1_500;

const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export async function aloneWork(): Promise<Figure[]> {
  const rounds: Awaited<ReturnType<typeof round>>[] = [];
  for (let n = 0; n < ROUNDS; n += 1) rounds.push(await round());
  const of = (what: keyof (typeof rounds)[number]) => middle(rounds.map((one) => one[what]));
  return [
    judged({
      name: 'start of the program to its address, one computer alone',
      value: of('startMs'),
      unit: 'ms',
      bar: { ms: 1000 },
    }),
    judged({
      name: 'memory of the program on a new book, stations never switched on',
      value: of('aloneMb'),
      unit: 'MB',
      bar: { mb: 125 },
    }),
    judged({ name: 'what switching stations on adds', value: of('addedMb'), unit: 'MB' }),
  ];
}

async function round(): Promise<{ startMs: number; aloneMb: number; addedMb: number }> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-bench-'));
  const began = performance.now();
  const program = await serve('--book', join(folder, 'shop.gambrel'));
  const startMs = performance.now() - began;
  try {
    const call = await deskLine(await program.newAddress());
    await call('shop.setUp', { shopName: 'Oak Ridge', unit: 'lb' });
    await wait(SETTLE_MS);
    const aloneMb = memoryMb(program.process.pid);
    const port = await freePort();
    await call('stations.setUp', { on: true, address: '127.0.0.1', port, pins: false, by: 'MK' });
    while ((await call('stations.get', {})).line.state !== 'open') await wait(20);
    await wait(SETTLE_MS);
    return { startMs, aloneMb, addedMb: memoryMb(program.process.pid) - aloneMb };
  } finally {
    await program.end('SIGINT');
    rmSync(folder, { recursive: true, force: true });
  }
}
