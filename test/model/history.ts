/** Histories: drawn from a seed, carried out on a desk of their own, and shortened when one fails. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import type { DemoBook } from '../../src/desk/door.ts';
import { Dice } from './dice.ts';
import { clockDoubt } from './clock.ts';
import { Driver, type DriverOptions, type Window } from './driver.ts';
import { STEPS } from './steps/index.ts';
import type { Tally } from './tally.ts';

/** A step before it is carried out: its name, and the numbers by which it chooses. */
export type Drawn = readonly [name: string, numbers: readonly number[]];

const NUMBERS = 22;
const START = Date.parse('2026-10-10T15:00:00Z');

const drawn: fc.Arbitrary<Drawn> = fc.noBias(fc.tuple(
  fc.oneof(...[...STEPS].map(([name, { weight }]) => ({ weight: Math.round(weight * 100), arbitrary: fc.constant(name) }))),
  fc.array(fc.nat(99_999), { minLength: NUMBERS, maxLength: NUMBERS }),
)); // prettier-ignore

/** The history of a seed and a number. */
export function historyOf(seed: number, number: number, steps: number): Drawn[] {
  const [found] = fc.sample(fc.array(drawn, { minLength: steps, maxLength: steps }), {
    seed: seed * 1_000_003 + number,
    numRuns: 1,
  });
  return found ?? [];
}

export interface Ran {
  /** Null: the desk did as the model says. */
  wrong: string | null;
  /** The step at which it was noticed. */
  at: number;
  log: string[];
}

export interface RunOptions {
  /** The whole book is compared after every so many steps, and at the end. */
  compareEvery?: number;
  tally?: Tally;
  demo?: DemoBook;
  around?: DriverOptions['around'];
  /** Before the book is first opened. @returns what is done once the history is over */
  prepare?: (bookPath: string) => () => void;
}

/** In memory where the system has such a place: the same files, without a disk under them. */
const PLACE = existsSync('/dev/shm') ? '/dev/shm' : tmpdir();

/** Carries a history out on a new book. */
export async function run(history: readonly Drawn[], options: RunOptions = {}): Promise<Ran> {
  const { compareEvery = 40, tally, demo, around, prepare } = options;
  const folder = mkdtempSync(join(PLACE, 'gambrel-model-'));
  const bookPath = join(folder, 'shop.gambrel');
  const over = prepare?.(bookPath);
  let driver: Driver | undefined;
  let at = 0;
  try {
    driver = await Driver.begin({ bookPath, start: START, ...(tally && { tally }), ...(demo && { demo }), ...(around && { around }) }); // prettier-ignore
    if (tally) tally.desks += 1;
    for (; at < history.length; at++) {
      driver.at = at + 1;
      const did = await carryOut(driver, history[at] as Drawn);
      if (did && tally) tally.steps += 1;
      tally?.sawClock(driver.shop.now);
      if ((at + 1) % compareEvery === 0) driver.check();
    }
    driver.check();
    return { wrong: null, at, log: driver.log };
  } catch (error) {
    const wrong = error instanceof Error ? (error.name === 'Error' ? error.message : (error.stack ?? error.message)) : String(error); // prettier-ignore
    return { wrong, at, log: driver?.log ?? [] };
  } finally {
    driver?.end();
    over?.();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function carryOut(driver: Driver, [name, numbers]: Drawn): Promise<boolean> {
  const step = STEPS.get(name);
  if (!step) throw new Error(`no step is called ${name}`);
  const dice = new Dice(numbers);
  const { shop } = driver;
  shop.now += dice.pick([60, 5, 600, 3600, 15_000]) * 1000;
  if (clockDoubt(shop).refuse.length > 0 && dice.onceIn(4)) await carryOut(driver, ['rightClock', numbers.slice(5)]);
  const window = dice.onceIn(9) ? dice.pick(driver.windows) : driver.windows[0];
  const what = step.draw(shop, dice);
  if (!what) return false;
  if ('call' in what) await driver.perform(what, window);
  else {
    driver.log.push(`${driver.at}. ${what.deed}`);
    await what.run(driver, window as Window);
  }
  return true;
} // prettier-ignore
