import { onTestFinished } from 'vitest';
import type { CallInput, CallName, CallOutput, Problem } from '../../src/bridge/contract.ts';
import { demoBook } from '../../src/demo/copy.ts';
import { openDesk } from '../../src/desk/desk.ts';
import { tempBookPath } from '../book/temp-book.ts';

const NEVER = 1_000_000_000;

/** A desk as the program runs it, with backups and seal, on a clock of its own; it closes when the test ends. */
export async function guardedDesk(
  bookPath = tempBookPath(),
  start = '2026-10-10T15:00:00Z',
  upkeep = { backUpEvery: NEVER, lookEvery: NEVER },
) {
  let now = Date.parse(start);
  const broken: unknown[] = [];
  const heard: (string | null)[] = [];
  const desk = await openDesk({
    bookPath,
    clock: () => new Date(now),
    onBroken: (error) => broken.push(error),
    demoBook: demoBook(),
    upkeep,
  });
  desk.onChanged(({ call }) => heard.push(call));
  onTestFinished(() => desk.close());
  return {
    desk,
    bookPath,
    broken,
    heard,
    async call<N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> {
      const answer = await desk.call(name, input);
      if (!answer.ok)
        throw new Error(`${name}: ${JSON.stringify(answer.problem)} ${broken.map(String).join()}`);
      return answer.value as CallOutput<N>;
    },
    async problem(name: CallName, input: unknown): Promise<Problem> {
      const answer = await desk.call(name, input);
      if (answer.ok) throw new Error(`${name} was carried out: ${JSON.stringify(answer.value)}`);
      return answer.problem;
    },
    wait: (seconds: number) => void (now += seconds * 1000),
  };
}
