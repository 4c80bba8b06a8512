/** Reads that depend on the learned models. */
import type * as v from 'valibot';
import { setImmediate } from 'node:timers/promises';
import { read, type Long, type Procedure } from './procedure.ts';
import type { Session } from './session.ts';

type Model = 'yields' | 'fats' | 'shrink';
const ALL: readonly Model[] = ['yields', 'fats', 'shrink'];

/** A faster step was cached, ms. */
const CACHED_MS = 2;

/**
 * Like `read`, but updates the learned models first: after a start, or after another program wrote, that takes a
 * fifth of a second in a large book, so it yields to other calls between the parts.
 * @param models the models that the answer depends on
 */
export function readAfterLearning<S extends v.GenericSchema, R>(
  input: S,
  run: (session: Session, input: v.InferOutput<S>) => R | Promise<R>,
  { models = ALL, long }: { models?: readonly Model[]; long?: Long<S> } = {},
): Procedure<S, Promise<R>, 'read'> {
  return read(
    input,
    async (session, value) => {
      await learn(session, models);
      return run(session, value);
    },
    false,
    long,
  );
}

async function learn(session: Session, models: readonly Model[]): Promise<void> {
  for (const model of models) {
    const began = performance.now();
    void session[model];
    if (performance.now() - began > CACHED_MS) await setImmediate();
  }
}
