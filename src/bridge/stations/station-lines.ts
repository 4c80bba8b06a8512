/** The sockets and change streams of each station, which end when the shop shuts it out. */
import { createHash } from 'node:crypto';
import type { OutgoingHttpHeaders, ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { RefusedRequest } from '../server/refusal.ts';
import type { StationDoor, StationEvent } from '../../desk/contract/stations.ts';

/** Interval of heartbeats, ms, by which both sides detect a broken connection. */
const HEARTBEAT = 15_000;
/** Maximum unsent bytes for a station that does not read; beyond it the stream is cut, and the station asks anew. */
const MAX_WAITING = 64 * 1024;
/** Streams at a time: of one station, and of all. */
const MAX_STREAMS = { ofStation: 4, all: 64 };
/** Time to read why the line ends, ms. */
const READING = 500;

export interface StationLines {
  /**
   * Lets a request in by its station's secret.
   * @throws RefusedRequest 401 `station.unknown`, `station.paused` or `station.removed`
   */
  enter(secret: string | null, socket: Socket): string;
  /**
   * Keeps `response` open and writes to it what the desk tells the station.
   * @throws RefusedRequest 503 when there are too many
   */
  stream(secret: string, response: ServerResponse, headers: OutgoingHttpHeaders): void;
}

/** It lasts as long as one of its sockets. */
interface Line {
  sockets: Set<Socket>;
  streams: Set<ServerResponse>;
  stopWatching(): void;
}

export function openStationLines(door: Pick<StationDoor, 'enter' | 'watch'>): StationLines {
  // Looked up by digests instead of secrets, so that timing reveals nothing about them.
  const lines = new Map<string, Line>();

  function lineOf(secret: string): Line {
    const key = createHash('sha256').update(secret).digest('base64');
    const known = lines.get(key);
    if (known) return known;
    const line: Line = { sockets: new Set(), streams: new Set(), stopWatching: () => undefined };
    lines.set(key, line);
    // A line that was shut hears nothing more: a station that is let in again while its sockets still close gets another.
    const forget = (): void => {
      if (lines.get(key) === line) lines.delete(key);
    };
    const stop = door.watch(secret, (event) => {
      if (event.kind === 'shut') forget();
      tell(line, event);
    });
    line.stopWatching = () => {
      forget();
      stop();
    };
    return line;
  }

  function join(line: Line, socket: Socket): void {
    if (line.sockets.has(socket)) return;
    line.sockets.add(socket);
    socket.once('close', () => {
      line.sockets.delete(socket);
      if (line.sockets.size === 0) line.stopWatching();
    });
  }

  const countStreams = () => [...lines.values()].reduce((sum, { streams }) => sum + streams.size, 0);

  return {
    enter(secret, socket) {
      const state = secret === null ? 'unknown' : door.enter(secret).state;
      if (secret === null || state !== 'open') throw new RefusedRequest(401, 'refused', `station.${state}`);
      join(lineOf(secret), socket);
      return secret;
    },
    stream(secret, response, headers) {
      const { streams } = lineOf(secret);
      if (streams.size >= MAX_STREAMS.ofStation || countStreams() >= MAX_STREAMS.all)
        throw new RefusedRequest(503, 'refused', 'request.too-many');
      streams.add(response);
      response.writeHead(200, { ...headers, 'content-type': 'text/event-stream; charset=utf-8' });
      write(response, ': listening\n\n');
      const heartbeat = setInterval(() => write(response, ': alive\n\n'), HEARTBEAT);
      response.once('close', () => {
        clearInterval(heartbeat);
        streams.delete(response);
      });
    },
  };
}

function tell({ sockets, streams }: Line, event: StationEvent): void {
  for (const response of streams) write(response, `event: ${event.kind}\ndata: ${JSON.stringify(event)}\n\n`);
  if (event.kind !== 'shut') return;
  const reading = new Set([...streams].map(({ socket }) => socket));
  for (const response of streams) response.end();
  for (const socket of sockets) {
    if (reading.has(socket)) setTimeout(() => socket.destroy(), READING).unref();
    else socket.destroy();
  }
}

function write(response: ServerResponse, text: string): void {
  if (response.writableLength > MAX_WAITING) response.destroy();
  else response.write(text);
}
