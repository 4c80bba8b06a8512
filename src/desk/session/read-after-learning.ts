/** Reads that depend on the learned models. */
import type * as v from 'valibot';
import { setImmediate } from 'node:timers/promises';
import { read, type Long, type Procedure } from './procedure.ts';
import type { Session } from './session.ts';

/** A step that takes less than this was cached, ms. */
const CACHED_MS = 2;

/**
 * As `read`, with what was learned looked up before: after a start, or after another program wrote, all of it is learned
 * again, which takes a fifth of a second in a large book. Then others have their turn between the parts.
 */
export function readAfterLearning<S extends v.GenericSchema, R>(
  input: S,
  run: (session: Session, input: v.InferOutput<S>) => R | Promise<R>,
  long?: Long<S>,
): Procedure<S, Promise<R>, 'read'> {
  return read(
    input,
    async (session, asked) => {
      await learn(session);
      return run(session, asked);
    },
    false,
    long,
  );
}

async function learn(session: Session): Promise<void> {
  for (const part of [() => session.yields, () => session.fats.now, () => session.shrink]) {
    const began = performance.now();
    part();
    if (performance.now() - began > CACHED_MS) await setImmediate();
  }
}
