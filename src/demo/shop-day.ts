import type { DemoAnimal } from './invented/animal.ts';
import type { Diary } from './invented/calendar.ts';
import type { Counter } from './counter.ts';
import type { Town } from './invented/people.ts';

/** The invented shop at work: its counter, its diary and what it has to remember from one day to the next. */
export interface Shop {
  counter: Counter;
  diary: Diary;
  town: Town;
  /** The day on which the demo stands still. */
  lastDay: string;
  /** Animals whose trim waits for the next sausage day. */
  sausage: DemoAnimal[];
  /** The animal whose sample came back positive. */
  positive: DemoAnimal | null;
  /** The animal that was written down days after it came. */
  late: DemoAnimal | null;
  /** When the batch on the bench is weighed in and the next may be planned: both would count on the same fat. */
  benchFreeAt: Date;
  /** Fat tests so far that had a target. */
  tests: number;
  /** Notes something down for so many minutes from now. */
  soon(minutes: number, happens: () => void | Promise<void>): void;
}

export function openShop(counter: Counter, diary: Diary, town: Town, lastDay: string): Shop {
  return {
    counter,
    diary,
    town,
    lastDay,
    sausage: [],
    positive: null,
    late: null,
    benchFreeAt: new Date(0),
    tests: 0,
    soon: (minutes, happens) =>
      diary.note(new Date(counter.now().getTime() + Math.round(minutes * 60) * 1000), happens),
  };
}
