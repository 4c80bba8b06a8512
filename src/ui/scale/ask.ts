import type { ScalePort } from './port.ts';

/** How often a scale is asked that sends only when asked. Common practice, no source. */
const ASK_EVERY_MS = 400;

/**
 * Asks a scale for its weight again and again. `failed` is called once if it can no longer be asked.
 * `stop()` resolves when no request is on its way any more.
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
    // Not while the last request is still on its way.
    if (port.writable && !sending) sending = send(port.writable);
  }, ASK_EVERY_MS);
  return {
    async stop() {
      clearInterval(timer);
      await sending;
    },
  };
}
