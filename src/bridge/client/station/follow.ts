/** Keeps a station's line to the desk: enters, listens to changes, and enters again after each interruption. */
import type { StationEntrance, StationEvent } from '../../../desk/contract/stations.ts';
import type { Answer } from '../../../desk/contract/problem.ts';
import { readEvents } from '../event-stream.ts';
import { DeskAway, ShutOut, type Shut, type StationRequests } from './requests.ts';

export type OpenEntrance = Extract<StationEntrance, { state: 'open' }>;

export interface FollowPlace {
  requests: StationRequests;
  /** Resolves when the page is visible: a hidden page holds no line. */
  seen(): Promise<void>;
  /** Aborted when the page is hidden. */
  hidden(): AbortSignal;
  /** Resolves after a while, or once somebody asks for the desk. */
  wait(milliseconds: number): Promise<void>;
}

export interface FollowTold {
  entered(entrance: OpenEntrance): Promise<void>;
  away(): void;
  shut(state: Shut): void;
  heard(event: StationEvent): void;
}

/** Delays before entering again, ms; the last one repeats. */
const PAUSES = [300, 1_000, 2_000, 5_000, 10_000];
/** The desk is heard every 15 s. A stream without a sound for so long is dead, though it looks open, ms. */
const SILENCE = 25_000;

/** Follows the desk until `stopped` is aborted, or the station is removed. */
export async function followDesk(place: FollowPlace, told: FollowTold, stopped: AbortSignal): Promise<void> {
  for (let tries = 0; !stopped.aborted; tries += 1) {
    await place.seen();
    try {
      const answer = await place.requests.postAnywhere<Answer<StationEntrance>>('/station', {});
      if (!answer.ok) throw new DeskAway(answer.problem);
      if (answer.value.state !== 'open') throw new ShutOut(answer.value.state);
      // The stream is open before the screens ask: a change between their questions and the stream would be missed. A question
      // that gets no answer ends it, and everything is asked again.
      const stream = await openStream(place, stopped);
      try {
        await told.entered(answer.value);
        tries = 0;
        await stream.read(told);
      } finally {
        stream.end();
      }
    } catch (error) {
      if (error instanceof ShutOut) {
        told.shut(error.state);
        if (error.state === 'removed') return;
      } else if (error instanceof DeskAway) told.away();
      else throw error;
    }
    await place.wait(PAUSES[Math.min(tries, PAUSES.length - 1)] ?? 0);
  }
}

/** Opens the change stream, which ends after a silence. @throws DeskAway, ShutOut */
async function openStream({ requests, hidden }: FollowPlace, stopped: AbortSignal) {
  const ended = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const heardSomething = () => {
    clearTimeout(timer);
    timer = setTimeout(() => ended.abort(), SILENCE);
  };
  heardSomething();
  const stream = await requests
    .listen(AbortSignal.any([hidden(), ended.signal, stopped]))
    .catch((error: unknown) => {
      clearTimeout(timer);
      throw error;
    });
  const noted = new TransformStream<Uint8Array, Uint8Array>({
    transform(piece, controller) {
      heardSomething();
      controller.enqueue(piece);
    },
  });

  return {
    /** Reads to the end. @throws ShutOut */
    async read(told: Pick<FollowTold, 'heard'>): Promise<void> {
      let shut: Shut | null = null;
      try {
        await readEvents(stream.pipeThrough(noted), ({ data }) => {
          const event = JSON.parse(data) as StationEvent;
          if (event.kind === 'shut') shut = event.state;
          told.heard(event);
        });
      } catch {
        // The line broke, was silent, or the page is hidden: entering again says which.
      }
      if (shut !== null) throw new ShutOut(shut);
    },
    end(): void {
      clearTimeout(timer);
      ended.abort();
    },
  };
}
