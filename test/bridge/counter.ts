/** A running loopback server for tests, over an echo desk, and ways to send requests to it. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DeskCaller } from '../../src/bridge/server/answer.ts';
import { serveOverHttp, type HttpCarrier, type HttpCarrierOptions } from '../../src/bridge/server/http.ts';

/** Answers with the call's own name and input; `change` simulates a write. */
interface EchoDesk extends DeskCaller {
  calls: { name: string; input: unknown; opening: string | null }[];
  change(call: string): void;
  listeners(): number;
}

export function echoDesk(): EchoDesk {
  const listeners = new Set<Parameters<DeskCaller['onChanged']>[0]>();
  const calls: EchoDesk['calls'] = [];
  return {
    calls,
    async call(name, input, opening) {
      calls.push({ name, input, opening });
      if (name === 'desk.throws') throw new Error('secret detail');
      if (name === 'desk.refuses') return { ok: false, problem: { kind: 'refused', code: 'trade.rule' } };
      if (name === 'desk.lacks') return { ok: false, problem: { kind: 'missing', code: 'call.unknown' } };
      return { ok: true, value: { name, input } };
    },
    onChanged(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    change: (call) => listeners.forEach((listener) => listener({ call, stale: null, opening: 'first' })),
    listeners: () => listeners.size,
  };
}

export interface Counter {
  desk: EchoDesk;
  carrier: HttpCarrier;
  origin: string;
  /** A new code, valid for one session. */
  code(): string;
  /** A session, as a window gets it. */
  session(): Promise<string>;
  close(): Promise<void>;
}

/** Starts a server over an echo desk and a small window folder; a file beside that folder must not be served. */
export async function openCounter(more: Partial<HttpCarrierOptions> = {}): Promise<Counter> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-counter-'));
  const windowFolder = join(folder, 'window');
  mkdirSync(join(windowFolder, 'assets'), { recursive: true });
  writeFileSync(join(windowFolder, 'index.html'), '<!doctype html><title>Gambrel</title>');
  writeFileSync(join(windowFolder, 'assets', 'index.js'), 'export {};');
  writeFileSync(join(windowFolder, 'assets', 'notes.txt'), 'not a kind of file that a window loads');
  writeFileSync(join(folder, 'secret.json'), '{"secret":true}');
  const desk = echoDesk();
  const carrier = await serveOverHttp({ desk, windowFolder, port: 0, ...more });
  const origin = `http://127.0.0.1:${carrier.port}`;
  const code = () => new URL(carrier.newAddress()).hash.slice('#code='.length);
  return {
    desk,
    carrier,
    origin,
    code,
    async session() {
      const response = await fetch(`${origin}/session`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ code: code() }),
      });
      return ((await response.json()) as { bearer: string }).bearer;
    },
    async close() {
      await carrier.close();
      rmSync(folder, { recursive: true });
    },
  };
}

interface RawAnswer {
  status: number;
  head: string;
  body: string;
}

/**
 * Sends `text` over a raw socket, as `fetch` would not, and reads until the server disconnects or `enough` ms passed.
 */
export function knock(port: number, text: string, enough = 3_000): Promise<RawAnswer> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1');
    let heard = '';
    const done = () => {
      socket.destroy();
      const [head = '', body = ''] = heard.split('\r\n\r\n', 2);
      resolve({ status: Number(/^HTTP\/1\.1 (\d{3})/.exec(head)?.[1] ?? 0), head: head.toLowerCase(), body });
    };
    const timer = setTimeout(done, enough);
    socket.on('data', (piece) => (heard += piece.toString()));
    socket.on('close', () => {
      clearTimeout(timer);
      done();
    });
    socket.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'ECONNRESET' && error.code !== 'EPIPE') reject(error);
    });
    socket.write(text);
  });
}
