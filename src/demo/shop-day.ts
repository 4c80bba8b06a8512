import type { MadePage } from '../desk/contract/contract.ts';
import type { DemoAnimal } from './invented/animal.ts';
import type { EventQueue } from './invented/calendar.ts';
import type { Counter } from './counter.ts';
import type { Town } from './invented/people.ts';

/** A load that the oven is being filled with. */
export interface Filling {
  id: number;
  finish: MadePage['finish'];
  /** When the oven goes on. */
  on: Date;
  /** The day on which it is out. */
  out: string;
}

/** The state of the simulated shop. */
export interface Shop {
  counter: Counter;
  events: EventQueue;
  town: Town;
  /** The demo's current date. */
  lastDay: string;
  /** Animals whose trim waits for the next sausage day. */
  sausage: DemoAnimal[];
  /** The load that the oven was filled with last. */
  filling: Filling | null;
  /** The animal with the positive sample. */
  positive: DemoAnimal | null;
  /** The animal that was entered days after its arrival. */
  late: DemoAnimal | null;
  /** When the current batch is weighed in and the next may be planned: otherwise both would plan the same fat. */
  benchFreeAt: Date;
  /** Number of fat tests with a target. */
  tests: number;
  /** Schedules an event in so many minutes. */
  scheduleIn(minutes: number, happens: () => void | Promise<void>): void;
}

export function openShop(counter: Counter, diary: EventQueue, town: Town, lastDay: string): Shop {
  return {
    counter,
    events: diary,
    town,
    lastDay,
    sausage: [],
    filling: null,
    positive: null,
    late: null,
    benchFreeAt: new Date(0),
    tests: 0,
    scheduleIn: (minutes, happens) =>
      diary.schedule(new Date(counter.now().getTime() + Math.round(minutes * 60) * 1000), happens),
  };
}
