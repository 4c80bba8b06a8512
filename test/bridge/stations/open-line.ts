/** A running line for stations, and devices that trust its root. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { request } from 'node:https';
import { connect, createServer, type AddressInfo, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text as collect } from 'node:stream/consumers';
import { connect as connectSecurely, type ConnectionOptions } from 'node:tls';
import { openAuthority, type OpenAuthority } from '../../../src/bridge/authority/open.ts';
import {
  openStationLine,
  type StationLine,
  type StationLineOptions,
} from '../../../src/bridge/stations/line.ts';
import { echoDoor, type EchoDoor, SECRET } from './echo-door.ts';

export const HOST = 'desk.local';
/** The one address of every system; two lines at a time differ by their ports. */
const ADDRESS = '127.0.0.1';
/** Tries to find a port that no other test takes at the same moment. */
const TRIES = 5;

/** A port that is free just now. */
export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, ADDRESS, () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });
}

export interface OpenLine {
  door: EchoDoor;
  authority: OpenAuthority;
  /** PEM. */
  root: string;
  line: StationLine;
  address: string;
  port: number;
  /** `127.0.0.1:47115` */
  host: string;
  origin: string;
  close(): void;
}

export async function openLine(more: Partial<StationLineOptions> = {}): Promise<OpenLine> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-line-'));
  const windowFolder = join(folder, 'window');
  mkdirSync(join(windowFolder, 'assets'), { recursive: true });
  for (const page of ['index.html', 'station.html'])
    writeFileSync(join(windowFolder, page), '<!doctype html><title>Gambrel</title>');
  writeFileSync(join(windowFolder, 'assets', 'index.js'), 'export {};');
  writeFileSync(join(folder, 'secret.json'), '{"secret":true}');
  const book = join(folder, 'shop.gambrel');
  writeFileSync(book, '');
  const authority = await openAuthority(book, 'Oak Ridge', new Date());
  const door = echoDoor();
  const { line, port } = await serve(async (one) =>
    openStationLine({ door, authority, windowFolder, port: one, shop: 'Oak Ridge', ...more }),
  );
  const base64 = Buffer.from(authority.root).toString('base64');
  const host = `${ADDRESS}:${port}`;
  return {
    door,
    authority,
    root: `-----BEGIN CERTIFICATE-----\n${base64}\n-----END CERTIFICATE-----\n`,
    line,
    address: ADDRESS,
    port,
    host,
    origin: `https://${host}`,
    close: () => line.close(),
  };
}

async function serve(
  open: (port: number) => Promise<StationLine>,
): Promise<{ line: StationLine; port: number }> {
  for (let tries = 1; ; tries += 1) {
    const port = await freePort();
    const line = await open(port);
    try {
      await line.serve({ host: HOST, addresses: [ADDRESS] }, new Date());
      return { line, port };
    } catch (error) {
      line.close();
      if (tries === TRIES) throw error;
    }
  }
}

export interface Asked {
  method?: string;
  headers?: Record<string, string>;
  body?: unknown;
  tls?: ConnectionOptions;
}

/** A request as a browser's, by a device that trusts the root. */
export function ask(line: OpenLine, path: string, asked: Asked = {}): Promise<IncomingMessage> {
  const body = asked.body === undefined ? '' : JSON.stringify(asked.body);
  return new Promise((resolve, reject) => {
    const sent = request(
      {
        host: line.address,
        port: line.port,
        path,
        method: asked.method ?? (body ? 'POST' : 'GET'),
        ca: line.root,
        agent: false,
        headers: { host: line.host, ...(body && { 'content-type': 'application/json' }), ...asked.headers },
        ...asked.tls,
      },
      resolve,
    );
    sent.on('error', reject);
    sent.end(body);
  });
}

/** The same, to the end of the answer. */
export async function told(line: OpenLine, path: string, asked: Asked = {}) {
  const response = await ask(line, path, asked);
  const body = await collect(response);
  return {
    status: response.statusCode ?? 0,
    headers: response.headers,
    body,
    json: () => JSON.parse(body) as unknown,
  };
}

export const asStation = (more: Record<string, string> = {}): Record<string, string> => ({
  authorization: `Bearer ${SECRET}`,
  ...more,
});

/** Sends `text` over plain TCP and reads until the line ends, or `patience` ms. */
export function knockPlain(line: OpenLine, text: string | Uint8Array, patience = 5_000): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect(line.port, line.address, () => socket.write(text));
    readToEnd(socket, patience, resolve);
  });
}

/** The same over TLS, by a device that trusts the root. */
export function knock(line: OpenLine, text: string | Uint8Array, patience = 5_000): Promise<string> {
  return new Promise((resolve) => {
    const socket = connectSecurely({ host: line.address, port: line.port, ca: line.root }, () =>
      socket.write(text),
    );
    readToEnd(socket, patience, resolve);
  });
}

function readToEnd(socket: Socket, patience: number, done: (heard: string) => void): void {
  let heard = '';
  const timer = setTimeout(() => socket.destroy(), patience);
  socket.on('data', (piece) => (heard += piece.toString('latin1')));
  socket.on('error', () => undefined); // a refusal may reset the line
  socket.on('close', () => {
    clearTimeout(timer);
    done(heard);
  });
}
