import type { ScalePort } from './port.ts';

/** Polling interval of a scale that sends only on request. Common practice, no source. */
const ASK_EVERY_MS = 400;

/**
 * Polls a scale for its weight. `failed` is called once if polling is no longer possible. `stop()` resolves when no
 * request is pending.
 */
export function poll(port: ScalePort, request: Uint8Array, failed: () => void): { stop(): Promise<void> } {
  let sending: Promise<void> | null = null;

  async function send(writable: WritableStream<Uint8Array>): Promise<void> {
    const writer = writable.getWriter();
    try {
      await writer.write(request);
    } catch {
      clearInterval(timer);
      failed();
    } finally {
      writer.releaseLock();
      sending = null;
    }
  }

  const timer = setInterval(() => {
    // Not while the last request is pending.
    if (port.writable && !sending) sending = send(port.writable);
  }, ASK_EVERY_MS);
  return {
    async stop() {
      clearInterval(timer);
      await sending;
    },
  };
}
