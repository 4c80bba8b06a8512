/** A running line for stations, and devices that trust its root. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import type { IncomingMessage } from 'node:http';
import { request } from 'node:https';
import { connect, type Socket } from 'node:net';
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

export const PORT = 47_115;
export const HOST = 'desk.local';

let last = 1;
/** Each line has an address of its own, so that all use the one fixed port. Only Linux has them without setting up. */
export const freshAddress = (): string => `127.77.${process.pid % 250}.${(last += 1)}`;

export interface OpenLine {
  door: EchoDoor;
  authority: OpenAuthority;
  /** PEM. */
  root: string;
  line: StationLine;
  address: string;
  /** `127.77.1.2:47115` */
  host: string;
  origin: string;
  close(): void;
}

export async function openLine(more: Partial<StationLineOptions> = {}): Promise<OpenLine> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-line-'));
  const windowFolder = join(folder, 'window');
  mkdirSync(join(windowFolder, 'assets'), { recursive: true });
  writeFileSync(join(windowFolder, 'index.html'), '<!doctype html><title>Gambrel</title>');
  writeFileSync(join(windowFolder, 'assets', 'index.js'), 'export {};');
  writeFileSync(join(folder, 'secret.json'), '{"secret":true}');
  const book = join(folder, 'shop.gambrel');
  writeFileSync(book, '');
  const authority = await openAuthority(book, 'Oak Ridge', new Date());
  const door = echoDoor();
  const address = freshAddress();
  const line = await openStationLine({
    door,
    authority,
    windowFolder,
    port: PORT,
    shop: 'Oak Ridge',
    ...more,
  });
  await line.serve({ host: HOST, addresses: [address] }, new Date());
  const base64 = Buffer.from(authority.root).toString('base64');
  const host = `${address}:${PORT}`;
  return {
    door,
    authority,
    root: `-----BEGIN CERTIFICATE-----\n${base64}\n-----END CERTIFICATE-----\n`,
    line,
    address,
    host,
    origin: `https://${host}`,
    close: () => line.close(),
  };
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
        port: PORT,
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
    const socket = connect(PORT, line.address, () => socket.write(text));
    readToEnd(socket, patience, resolve);
  });
}

/** The same over TLS, by a device that trusts the root. */
export function knock(line: OpenLine, text: string | Uint8Array, patience = 5_000): Promise<string> {
  return new Promise((resolve) => {
    const socket = connectSecurely({ host: line.address, port: PORT, ca: line.root }, () =>
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
