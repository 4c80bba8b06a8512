/** How the line for stations is, as it last told this opening of the book. */
import type { StationLineState } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

const states = new WeakMap<Session, StationLineState>();

/** Off until the line tells otherwise. */
export function lineStateOf(session: Session): StationLineState {
  return states.get(session) ?? { state: 'off' };
}

/** @returns whether it changed */
export function noteLineState(session: Session, state: StationLineState): boolean {
  if (JSON.stringify(lineStateOf(session)) === JSON.stringify(state)) return false;
  states.set(session, state);
  return true;
}

/** Where devices reach the desk: by name first, which stays when a router gives out another address. */
export function originsOf(state: StationLineState | null): string[] {
  if (state?.state !== 'open') return [];
  return [state.host, ...state.addresses].map(
    (name) => `https://${name.includes(':') ? `[${name}]` : name}:${state.port}`,
  );
}
