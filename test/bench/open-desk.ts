import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CallInput, CallName, CallOutput } from '../../src/bridge/contract.ts';
import { openDesk } from '../../src/desk/desk.ts';
import { DEMO_NOW } from '../../src/demo/season.ts';
import { largeBook } from './large-book.ts';

/** A desk on a copy of the large book, so that what is measured changes nothing for the next. */
export async function deskOn(seasons: number) {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-bench-'));
  const path = join(folder, 'large.gambrel');
  copyFileSync(await largeBook(seasons), path);
  let now = DEMO_NOW.getTime();
  const desk = await openDesk({
    bookPath: path,
    clock: () => new Date(now),
    onBroken: (error) => console.error(error),
  });
  return {
    path,
    async call<N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> {
      const answer = await desk.call(name, input);
      if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.problem)}`);
      return answer.value as CallOutput<N>;
    },
    /** Lets time pass, so that the same weight may be typed again. */
    wait: (seconds: number) => void (now += seconds * 1000),
    close(): void {
      desk.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type BenchDesk = Awaited<ReturnType<typeof deskOn>>;
