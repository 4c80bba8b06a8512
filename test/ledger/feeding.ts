/** Feeders of tests: on this thread, quick, and asked for what they said. */
import { identityOf } from '../../src/book/file/book-identity.ts';
import { openFile } from '../../src/book/file/open-file.ts';
import {
  startFeeder,
  type Feeder,
  type FeederOptions,
  type FeedState,
} from '../../src/ledger/feed/feeder.ts';
import type { Server } from '../../src/ledger/server/server.ts';

export const QUICK = { look: 20, again: 20, longest: 100 };

export interface Fed {
  feeder: Feeder;
  states: FeedState[];
  broken: unknown[];
  /** Waits for a state of one of these kinds that comes from now on, or is the newest. */
  until(...kinds: FeedState['kind'][]): Promise<FeedState>;
  /** Everything that is logged by now is sent. */
  even(): Promise<void>;
  stop(): Promise<void>;
}

export function identityAt(path: string): string {
  const db = openFile(path, { readonly: true });
  try {
    return identityOf(db) ?? '';
  } finally {
    db.close();
  }
}

export function feed(
  bookPath: string,
  connect: () => Promise<Server>,
  more: Partial<Omit<FeederOptions, 'branch'>> & { branch?: number } = {},
): Fed {
  const states: FeedState[] = [];
  const broken: unknown[] = [];
  const waiting = new Set<(state: FeedState) => void>();
  const { branch = 1, ...options } = more;
  const feeder = startFeeder({
    bookPath,
    connect,
    name: 'Test Locker',
    privacy: { personal: true, known: [] },
    pace: QUICK,
    ...options,
    branch: { book: identityAt(bookPath), branch },
    onBroken: (error) => void broken.push(error),
    onState(state) {
      states.push(state);
      for (const tell of waiting) tell(state);
    },
  });
  const next = (fits: (state: FeedState) => boolean): Promise<FeedState> =>
    new Promise((resolve, reject) => {
      const late = setTimeout(
        () => reject(new Error(`still ${JSON.stringify(states.at(-1))}; ${broken.map(String).join()}`)),
        45_000,
      );
      const tell = (state: FeedState): void => {
        if (!fits(state)) return;
        clearTimeout(late);
        waiting.delete(tell);
        resolve(state);
      };
      waiting.add(tell);
    });
  return {
    feeder,
    states,
    broken,
    until(...kinds) {
      const last = states.at(-1);
      return last && kinds.includes(last.kind)
        ? Promise.resolve(last)
        : next(({ kind }) => kinds.includes(kind));
    },
    async even() {
      // The first may have been begun before what was just logged.
      const told = next(({ kind }) => kind === 'even');
      feeder.wake();
      await told;
      const again = next(({ kind }) => kind === 'even');
      feeder.wake();
      await again;
    },
    async stop() {
      feeder.stop();
      await feeder.ended;
    },
  };
}
