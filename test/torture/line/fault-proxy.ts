/** A program between station and desk that cuts, truncates, holds up and swallows what passes, by a seed. */
import { connect, createServer, type AddressInfo, type Socket } from 'node:net';
import type { RandomGenerator } from '../../../src/core/stats/random.ts';

/** The chance of each fault for one piece of data, in either direction. */
export interface Faults {
  /** A part of the piece passes, and both ends are reset. */
  cut: number;
  /** A part of the piece passes, and both ends are told that nothing more comes. */
  truncate: number;
  /** It passes later, up to `holdMs`. */
  hold: number;
  holdMs: number;
  /** Neither it nor anything after it passes, and nobody is told. */
  swallow: number;
}

export interface FaultProxy {
  port: number;
  /** What happened so far. */
  counts: { lines: number; cut: number; truncated: number; held: number; swallowed: number };
  /** Takes the line away, as a wireless that fails, or brings it back. */
  cutOff(isOff: boolean): void;
  /** Whatever the desk says is lost and its line reset, though what it hears arrives; or no more. */
  loseAnswers(isLosing: boolean): void;
  close(): void;
}

export async function startFaultProxy(
  target: { host: string; port: number },
  faults: Faults,
  chance: RandomGenerator,
): Promise<FaultProxy> {
  const counts = { lines: 0, cut: 0, truncated: 0, held: 0, swallowed: 0 };
  const open = new Set<Socket>();
  let isOff = false;
  let isLosing = false;
  const server = createServer((station) => {
    if (isOff) {
      station.destroy();
      return;
    }
    counts.lines += 1;
    const desk = connect(target);
    for (const [from, to] of [[station, desk], [desk, station]] as const) {
      open.add(from);
      from.on('error', () => to.destroy());
      from.on('close', () => {
        open.delete(from);
        to.end();
      });
      from.on('data', (piece) => {
        if (isLosing && from === desk) [from, to].forEach((socket) => socket.resetAndDestroy());
        else pass(piece, from, to);
      });
    }
  }); // prettier-ignore

  function pass(piece: Buffer, from: Socket, to: Socket): void {
    const dice = chance.uniform();
    const part = piece.subarray(0, Math.floor(chance.uniform() * piece.length));
    if (dice < faults.cut) {
      counts.cut += 1;
      to.write(part, () => [from, to].forEach((socket) => socket.resetAndDestroy()));
    } else if (dice < faults.cut + faults.truncate) {
      counts.truncated += 1;
      from.removeAllListeners('data');
      to.end(part);
      from.end();
    } else if (dice < faults.cut + faults.truncate + faults.swallow) {
      counts.swallowed += 1;
      from.removeAllListeners('data');
      from.pause();
    } else if (dice < faults.cut + faults.truncate + faults.swallow + faults.hold) {
      counts.held += 1;
      from.pause(); // what follows waits behind it
      setTimeout(() => {
        to.write(piece);
        from.resume();
      }, chance.uniform() * faults.holdMs);
    } else to.write(piece);
  }

  function endAll(): void {
    for (const socket of open) socket.destroy();
  }

  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    port: (server.address() as AddressInfo).port,
    counts,
    cutOff(off) {
      isOff = off;
      if (off) endAll();
    },
    loseAnswers: (losing) => void (isLosing = losing),
    close() {
      server.close();
      endAll();
    },
  };
}
