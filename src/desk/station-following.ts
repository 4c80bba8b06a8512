/** A station that holds a line: the office's list shows it, and it hears what changes. */
import type { Place } from '../trade/place.ts';
import type { HeldDecision, StationEntrance, StationEvent } from './contract/stations.ts';
import type { Desk } from './desk.ts';
import type { Session } from './session/session.ts';
import { staleAt } from './stale-at.ts';
import { cameIn } from './stations/presence.ts';

/** Notes that a station holds a line, for the office's list, in each opening of the book. @returns what ends it */
export function arrived(desk: Desk, enter: () => StationEntrance): () => void {
  let at: Session | null = null;
  let leave = (): boolean => false;
  const notice = (): void => desk.announce('stations.line', ['stations.get']);
  const arrive = (): void => {
    const session = desk.session();
    if (session === at) return;
    leave();
    at = session;
    const found = enter();
    leave = session && found.state === 'open' ? cameIn(session, found.station.id) : () => false;
    if (found.state === 'open') notice();
  };
  const stop = desk.onChanged(arrive);
  arrive();
  return () => {
    stop();
    if (leave()) notice();
  };
}

/** Follows one station until it is shut out, or `told` is no longer wanted. */
export function watch(
  desk: Desk,
  enter: () => StationEntrance,
  decisionOf: (stationId: number) => HeldDecision | null,
  told: (event: StationEvent) => void,
): () => void {
  let known = '';
  let decided: HeldDecision | null = null;
  /** Null: shut out. */
  let place: Place | null = null;
  const look = (): void => {
    const now = enter();
    if (now.state !== 'open') {
      place = null;
      stop();
      told({ kind: 'shut', state: now.state });
      return;
    }
    const { station, addresses } = now;
    place = station.place;
    const shown = JSON.stringify([station, addresses]);
    if (known !== '' && shown !== known) told({ kind: 'station', station, addresses });
    known = shown;
    const decision = decisionOf(station.id);
    if (decision !== null && decision !== decided) told({ kind: 'held' });
    decided = decision;
  };
  const stop = desk.onChanged(({ stale, opening }) => {
    // Each station hears of every save of all: the book is asked only where a station itself may have changed.
    if (stale === null || stale.asks.includes('stations.get')) look();
    const here = place === null ? undefined : staleAt(stale, place);
    if (here !== undefined) told({ kind: 'changed', stale: here, opening });
  });
  look();
  return stop;
}
