import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as v from 'valibot';
import { openRecordBook } from '../book/book.ts';
import { CoreProblem } from '../core/problem.ts';
import { DEMO_NOW, fillDemo } from './demo/season.ts';
import { Trouble, type Answer, type Problem } from './problem.ts';
import type { Procedure } from './procedure.ts';
import { procedures } from './procedures.ts';
import { createRoom, type DeskRoom } from './room.ts';

export interface Desk {
  /** Carries out one call. Never rejects: what goes wrong is in the answer. */
  call(name: string, input: unknown): Promise<Answer<unknown>>;
  /** Registers a listener for changes and returns the function that removes it. */
  onChanged(listener: (changed: { call: string }) => void): () => void;
  /** Lets go of the book, leaving one whole file. */
  close(): void;
}

export interface DeskOptions {
  bookPath: string;
  /** Start in the demo season; the book at `bookPath` is not touched until the demo is left. */
  demo?: boolean;
  clock?: () => Date;
  /** Told of errors that are ours, for a log. */
  onBroken?: (error: unknown) => void;
}

/** Everything that the shop's windows can ask for, over one open book. @throws BookTrouble */
export async function openDesk(options: DeskOptions): Promise<Desk> {
  const clock = options.clock ?? (() => new Date());
  const listeners = new Set<(changed: { call: string }) => void>();
  const host: DeskRoom['host'] = {
    async openDemo() {
      if (room.demo) return room;
      const next = await openDemo(host);
      leave();
      return (room = next);
    },
    async leaveDemo() {
      if (!room.demo) return room;
      const next = openShop();
      leave();
      return (room = next);
    },
  };
  const openShop = () =>
    createRoom({ book: openRecordBook(options.bookPath, clock()), demo: false, clock, host });
  let room: DeskRoom = options.demo ? await openDemo(host) : openShop();

  function leave(): void {
    room.book.close();
    if (room.demo) rmSync(join(room.book.path, '..'), { recursive: true, force: true });
  }

  async function call(name: string, input: unknown): Promise<Answer<unknown>> {
    if (!Object.hasOwn(procedures, name))
      return { ok: false, problem: { kind: 'missing', code: 'call.unknown' } };
    const procedure = procedures[name as keyof typeof procedures] as unknown as Procedure;
    const checked = v.safeParse(procedure.input, input ?? {}, { abortPipeEarly: true });
    if (!checked.success) return { ok: false, problem: invalid(checked.issues[0]) };
    try {
      const value =
        procedure.kind === 'write'
          ? room.book.change(() => procedure.run(room, checked.output))
          : await procedure.run(room, checked.output);
      if (procedure.kind !== 'read') {
        room.forget();
        for (const listener of listeners) listener({ call: name });
      }
      return { ok: true, value };
    } catch (error) {
      room.forget();
      room.reshelve();
      return { ok: false, problem: problemOf(error, options.onBroken) };
    }
  }

  return {
    call,
    onChanged(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: leave,
  };
}

/** A throw-away book filled with the invented season, in a folder of its own, on its own calendar. */
async function openDemo(host: DeskRoom['host']): Promise<DeskRoom> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-demo-'));
  const started = Date.now();
  const clock = () => new Date(DEMO_NOW.getTime() + (Date.now() - started));
  const book = openRecordBook(join(folder, 'demo.gambrel'), DEMO_NOW, true);
  await fillDemo(book);
  return createRoom({ book, demo: true, clock, host });
}

function invalid(issue: v.BaseIssue<unknown>): Problem {
  const code = /^[a-z-]+(\.[a-z-]+)+$/.test(issue.message) ? issue.message : 'input.invalid';
  const field = v.getDotPath(issue) ?? undefined;
  return { kind: 'invalid', code, ...(field ? { field } : {}) };
}

/** A rule of the trade or of arithmetic becomes a problem with its code; anything else is our fault and is reported. */
function problemOf(error: unknown, onBroken?: (error: unknown) => void): Problem {
  if (error instanceof Trouble) return error.problem;
  if (error instanceof CoreProblem)
    return {
      kind: 'invalid',
      code: error.code,
      ...(error.field ? { field: error.field } : {}),
      with: { ...error.with },
    };
  const sqlite = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (/^SQLITE_(FULL|IOERR|READONLY)/.test(sqlite)) return { kind: 'broken', code: 'book.cannot-write' };
  if (/^SQLITE_BUSY/.test(sqlite)) return { kind: 'broken', code: 'book.locked' };
  onBroken?.(error);
  return { kind: 'broken', code: 'desk.broken' };
}
