/**
 * Who writes at a station. A call of the desk's own window has no actor. It goes along with the call, also past a solver's
 * pause, so that no procedure has to hand it on.
 */
import { AsyncLocalStorage } from 'node:async_hooks';

export interface Actor {
  stationId: number;
  /** Initials, as the person signed in or only said; empty: nobody said. */
  person: string;
  checked: boolean;
  /** Runs the work of each of the call's transactions inside it, and may refuse by throwing. */
  within<T>(work: () => T): T;
}

const current = new AsyncLocalStorage<Actor>();

/** Runs `work`, and whatever it goes on with, as this actor. */
export const actAs = <T>(actor: Actor, work: () => T): T => current.run(actor, work);

/** The actor of the running call, if it is a station's. */
export const actor = (): Actor | undefined => current.getStore();
