/** When a station's page talks to the desk: while it is visible, and sooner when somebody asks for it. */
import { useEventListener } from '@vueuse/core';

export interface PageWaits {
  seen(): Promise<void>;
  hidden(): AbortSignal;
  wait(milliseconds: number): Promise<void>;
  /** Ends the current wait, and a stream that may be dead. */
  hurry(): void;
}

export function pageWaits(): PageWaits {
  let shown = new AbortController();
  const waiting = new Set<() => void>();
  const endWaits = () => {
    for (const end of waiting) end();
    waiting.clear();
  };
  const renew = () => {
    shown.abort();
    shown = new AbortController();
    endWaits();
  };
  // A tablet that wakes up may hold a stream that looks open and is dead: begin anew each time.
  useEventListener(document, 'visibilitychange', () => (document.hidden ? shown.abort() : renew()));
  useEventListener(window, 'pageshow', ({ persisted }) => persisted && renew());
  useEventListener(window, 'online', renew);
  return {
    async seen() {
      while (document.hidden) await new Promise<void>((resolve) => waiting.add(resolve));
    },
    hidden: () => shown.signal,
    wait: (milliseconds) =>
      new Promise((resolve) => {
        const timer = setTimeout(resolve, milliseconds);
        waiting.add(() => {
          clearTimeout(timer);
          resolve();
        });
      }),
    hurry: renew,
  };
}
