/** The desk's side of a feeder in a thread of its own: PostgreSQL's client is loaded there, and nowhere else while a book is fed. */
import { SHARE_ENV, Worker } from 'node:worker_threads';
import type { LedgerAddress } from '../server/connect.ts';
import type { FeederOptions, FeedState } from './feeder.ts';
import { newGate, waitUntilClosed } from './gate.ts';
import type { SharedLesson } from './lessons.ts';

export interface ThreadData extends Pick<FeederOptions, 'bookPath' | 'branch' | 'name' | 'privacy'> {
  address: LedgerAddress;
  password: string;
  shared: SharedArrayBuffer;
}
export type ToThread = 'wake' | 'stop' | { exchange: SharedLesson | null };
export type FromThread =
  | { kind: 'state'; state: FeedState }
  | { kind: 'lessons'; lessons: SharedLesson[] }
  | { kind: 'broken'; error: string };

export interface FeederThread {
  /** Looks for changes now. */
  wake(): void;
  /** Tells what this shop learned, if anything, and asks for what others did. */
  exchange(mine: SharedLesson | null): void;
  /** Blocks until the thread has closed the book. It ends soon after. */
  stop(): void;
}

/** @param program the thread's script: `worker.ts` itself, or its build */
export function startThread(
  program: URL,
  feed: Omit<ThreadData, 'shared'>,
  { onState, onLessons, onBroken }: Pick<FeederOptions, 'onState' | 'onLessons' | 'onBroken'>,
): FeederThread {
  const shared = newGate();
  const thread = new Worker(program, {
    workerData: { job: 'feed', ...feed, shared } satisfies ThreadData & { job: 'feed' },
    execArgv: [],
    env: SHARE_ENV,
  });
  let ended = false;
  thread.unref(); // a feed never keeps the program from ending
  thread.on('message', (message: FromThread) => {
    if (ended) return;
    if (message.kind === 'state') onState(message.state);
    else if (message.kind === 'lessons') onLessons?.(message.lessons);
    else onBroken(new Error(message.error));
  });
  thread.on('error', (error) => {
    if (!ended) onBroken(error);
  });
  const tell = (message: ToThread): void => thread.postMessage(message);
  return {
    wake: () => tell('wake'),
    exchange: (mine) => tell({ exchange: mine }),
    stop() {
      ended = true;
      if (!waitUntilClosed(shared, () => tell('stop')))
        onBroken(new Error('the feeder did not close the book'));
    },
  };
}
