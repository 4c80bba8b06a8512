/** A station's line to the desk through interruptions, on a clock of the test. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { followDesk } from '../../../../src/bridge/client/station/follow.ts';
import { DeskAway, ShutOut, type StationRequests } from '../../../../src/bridge/client/station/requests.ts';

const ENTRANCE = { ok: true, value: { state: 'open', opening: 'o-1' } };

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

/** A desk that is entered by `enter` and whose stream is written to by the test. */
function desk(enter: () => unknown, entered: () => Promise<void> = async () => undefined) {
  const told: string[] = [];
  const stop = new AbortController();
  let shown = new AbortController();
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
    hidden: () => AbortSignal.any([stop.signal, shown.signal]),
    wait: (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds)),
  };
  const followed = followDesk(
    place,
    {
      entered: async () => {
        told.push('entered');
        await entered();
      },
      away: () => told.push('away'),
      shut: (state) => told.push(state),
      heard: ({ kind }) => told.push(`heard ${kind}`),
    },
    stop.signal,
  );
  /** As when a question gets no answer. */
  const hurry = (): void => {
    shown.abort();
    shown = new AbortController();
  };
  return { told, followed, hurry, stop: () => stop.abort(), say: (text: string) => write(text) };
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

it('hears what changes while the screens ask', async () => {
  const line = desk(
    () => ENTRANCE,
    async () => void (await after(1_000)),
  );
  await after(500);
  line.say('event: changed\ndata: {"kind":"changed"}\n\n');
  await after(1_000);
  expect(line.told).toEqual(['entered', 'heard changed']);
  line.stop();
});

it('enters again when a question gets no answer while it enters', async () => {
  let asks = 0;
  const line = desk(
    () => ENTRANCE,
    async () => void ((asks += 1) === 1 && line.hurry()),
  );
  await after(2_000);
  expect(line.told).toEqual(['entered', 'entered']);
  line.stop();
});
