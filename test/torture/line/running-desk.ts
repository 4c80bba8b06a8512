/** A desk in a process of its own, as its parent sees it. */
import { fork, type ChildProcess } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { keptPath } from '../../../src/bridge/authority/kept.ts';
import type { Answer } from '../../../src/desk/contract/problem.ts';
import type { StationLineState } from '../../../src/desk/contract/stations.ts';
import type { FromDesk } from './desk-process.ts';

export interface RunningDesk {
  pid: number | undefined;
  call<T>(name: string, input: unknown): Promise<T>;
  /** Resolves when stations can reach it. */
  listening(): Promise<void>;
  kill(): Promise<void>;
}

export function startDesk(bookPath: string): RunningDesk {
  const child = fork(new URL('./desk-process.ts', import.meta.url), [bookPath], {
    execArgv: ['--disable-warning=ExperimentalWarning'],
  });
  const waiting = new Map<number, (answer: Answer<unknown>) => void>();
  let line: StationLineState = { state: 'off' };
  let told: () => void = () => undefined;
  child.on('message', (message: FromDesk) => {
    if ('line' in message) {
      line = message.line;
      told();
    } else waiting.get(message.id)?.(message.answer);
  });
  let last = 0;
  return {
    pid: child.pid,
    async call<T>(name: string, input: unknown): Promise<T> {
      const id = (last += 1);
      const answer = await new Promise<Answer<unknown>>((resolve) => {
        waiting.set(id, resolve);
        child.send({ id, name, input });
      });
      if (!answer.ok) throw new Error(`${name}: ${JSON.stringify(answer.problem)}`);
      return answer.value as T;
    },
    listening: () =>
      new Promise((resolve, reject) => {
        told = () => {
          if (line.state === 'open') resolve();
          if (line.state === 'failed') reject(new Error(JSON.stringify(line.problem)));
        };
        told();
      }),
    kill: () => ended(child),
  };
}

function ended(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    child.once('exit', () => resolve());
    child.kill('SIGKILL');
  });
}

/** The root that devices trust, as PEM. */
export const rootBeside = (bookPath: string): string => keptBeside(bookPath).root;

/** What signs the desk's certificate, as PEM. */
export const signerBeside = (bookPath: string): string => keptBeside(bookPath).signer;

function keptBeside(bookPath: string): { root: string; signer: string } {
  const kept = JSON.parse(readFileSync(keptPath(bookPath), 'utf8')) as {
    authority: { root: string; signer: string };
  };
  return kept.authority;
}
