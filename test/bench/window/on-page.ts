/**
 * Runs in the page: notes the key that begins a wait, and the frame after the one that painted its answer. It is handed to the browser as
 * source text, so it uses nothing outside itself.
 */

/** What the browser itself recorded since the key of the last wait. */
export interface Recorded {
  /** From the key to the next frame, whatever that frame showed (Event Timing, in steps of 8 ms); null if that took less than 16 ms. */
  nextPaintMs: number | null;
  /** Tasks of more than 50 ms, in milliseconds. */
  longTasksMs: number[];
  /** Sum of the layout shift scores, those right after the key included. */
  shift: number;
}

export interface HandWatch {
  /**
   * Waits for the next press of a key. Once a frame begins in which `answered` is true, that frame paints the answer; resolves when the
   * frame after it begins, to the milliseconds since the key: never too few, and at most one frame too many. Infinity where no answer
   * comes within two minutes.
   */
  until(key: string, answered: (about: string) => boolean, about: string): Promise<number>;
  recorded(): Recorded;
}

/** What is made worse on purpose, to see the bars miss. */
export interface Faults {
  /** Milliseconds that the page is blocked by the key of each wait. */
  slowMs: number;
  /** Keeps a copy of each page that was left. */
  leaks: boolean;
}

declare global {
  interface Window {
    handWatch: HandWatch;
  }
}

export function installWatch({ slowMs, leaks }: Faults): void {
  const GIVEN_UP_MS = 120_000;
  let wanted: string | null = null;
  let began = Infinity;
  let recorded: { kind: string; at: number; much: number }[] = [];

  addEventListener(
    'keydown',
    (event) => {
      if (event.key !== wanted) return;
      wanted = null;
      began = event.timeStamp;
      const end = performance.now() + slowMs;
      while (performance.now() < end);
    },
    true,
  );
  const record = (kind: string, much: (entry: PerformanceEntry) => number, more = {}): void =>
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries())
        recorded.push({ kind: `${kind} ${entry.name}`, at: entry.startTime, much: much(entry) });
    }).observe({ type: kind, ...more });
  record('event', ({ duration }) => duration, { durationThreshold: 16 });
  record('longtask', ({ duration }) => duration);
  record('layout-shift', (entry) => (entry as PerformanceEntry & { value: number }).value);

  const kept: Node[] = [];
  if (leaks)
    addEventListener('hashchange', () => {
      const page = document.querySelector('main');
      if (page) kept.push(page.cloneNode(true));
    });

  const since = (kind: string): number[] =>
    recorded.filter((one) => one.kind.startsWith(kind) && one.at >= began - 1).map(({ much }) => much);
  window.handWatch = {
    until: (key, answered, about) =>
      new Promise((resolve) => {
        wanted = key;
        began = Infinity;
        recorded = [];
        const asked = performance.now();
        const frame = (): void => {
          if (performance.now() - asked > GIVEN_UP_MS) resolve(Infinity);
          else if (began === Infinity || !answered(about)) requestAnimationFrame(frame);
          else requestAnimationFrame(() => resolve(performance.now() - began));
        };
        requestAnimationFrame(frame);
      }),
    recorded: () => ({
      nextPaintMs: since('event keydown')[0] ?? null,
      longTasksMs: since('longtask'),
      shift: since('layout-shift').reduce((sum, one) => sum + one, 0),
    }),
  };
}
