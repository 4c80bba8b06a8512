import type { Changed } from '../contract.ts';

/** The change listeners of one window. */
interface Listeners {
  add(listener: (changed: Changed) => void): () => void;
  notify(changed: Changed): void;
}

/** Sent after an interruption, when events may have been missed. */
export const ANYTHING_CHANGED: Changed = { call: null, stale: null };

export function openListeners(): Listeners {
  const all = new Set<(changed: Changed) => void>();
  return {
    add(listener) {
      const own = (changed: Changed) => listener(changed); // the same function may be registered twice
      all.add(own);
      return () => all.delete(own);
    },
    notify: (changed) => [...all].forEach((listener) => listener(changed)),
  };
}
