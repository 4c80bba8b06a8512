/** A station's line to the desk through interruptions, on a clock of the test. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { followDesk } from '../../../../src/bridge/client/station/follow.ts';
import { DeskAway, ShutOut, type StationRequests } from '../../../../src/bridge/client/station/requests.ts';

const ENTRANCE = { ok: true, value: { state: 'open', opening: 'o-1' } };

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

/** A desk that is entered by `enter` and whose stream is written to by the test. */
function desk(enter: () => unknown) {
  const told: string[] = [];
  const stop = new AbortController();
  let write: (text: string) => void = () => undefined;
  const requests: StationRequests = {
    post: async () => undefined as never,
    postAnywhere: async () => enter() as never,
    putPhoto: async () => undefined as never,
    photo: async () => null,
    listen: async (signal) =>
      new ReadableStream({
        start(controller) {
          write = (text) => controller.enqueue(new TextEncoder().encode(text));
          signal.addEventListener('abort', () => controller.error(new Error('aborted')));
        },
      }),
  };
  const place = {
    requests,
    seen: () => Promise.resolve(),
    hidden: () => stop.signal,
    wait: (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds)),
  };
  const followed = followDesk(
    place,
    {
      entered: async () => void told.push('entered'),
      away: () => told.push('away'),
      shut: (state) => told.push(state),
      heard: ({ kind }) => told.push(`heard ${kind}`),
    },
    stop.signal,
  );
  return { told, followed, stop: () => stop.abort(), say: (text: string) => write(text) };
}

const after = (milliseconds: number) => vi.advanceTimersByTimeAsync(milliseconds);

it('enters, hears changes, and takes a line that is silent for dead', async () => {
  const line = desk(() => ENTRANCE);
  await after(0);
  line.say('event: changed\ndata: {"kind":"changed"}\n\n');
  await after(20_000);
  line.say(': alive\n\n');
  await after(20_000);
  expect(line.told).toEqual(['entered', 'heard changed']);
  await after(6_000);
  expect(line.told).toEqual(['entered', 'heard changed', 'entered']);
  line.stop();
});

it('says that the desk is away and tries again, less and less often', async () => {
  let tries = 0;
  const line = desk(() => {
    tries += 1;
    throw new DeskAway();
  });
  await after(60_000);
  expect(line.told).toEqual(Array<string>(tries).fill('away'));
  expect(tries).toBeGreaterThan(6);
  expect(tries).toBeLessThan(15);
  line.stop();
});

it('goes on after a pause, and ends for good when it is removed', async () => {
  const answers = [() => ENTRANCE, () => ENTRANCE];
  const line = desk(() => (answers.shift() ?? (() => { throw new ShutOut('removed'); }))()); // prettier-ignore
  await after(0);
  line.say('event: shut\ndata: {"kind":"shut","state":"paused"}\n\n');
  // The desk ends the stream right after; here the line falls silent.
  await after(26_000);
  expect(line.told).toEqual(['entered', 'heard shut', 'paused', 'entered']);
  await after(30_000);
  await line.followed;
  expect(line.told.at(-1)).toBe('removed');
});
