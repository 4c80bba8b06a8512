/**
 * The worker thread's program: runs long calls on its own connection, while the desk answers others. A call is the
 * same procedure as in the desk.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { openRecordBook } from '../book/book.ts';
import { actAs } from '../book/changes/acting.ts';
import { adoptUpload } from './session/upload.ts';
import { acceptClock } from './session/clock.ts';
import { procedures } from './procedures.ts';
import type { AnyProcedure, Door } from './session/procedure.ts';
import { createSession, type Session } from './session/session.ts';
import { summariseNext } from './session/season-summaries.ts';
import { actorOf } from './session/actor.ts';
import { releaseExport } from './export/outbox.ts';
import { serializeError, type WorkerResponse, type WorkerRequest } from './worker/messages.ts';

/** Number of pending calls; the desk waits for it on closing. */
const open = new Int32Array((workerData as { open: SharedArrayBuffer }).open);

parentPort?.on('message', (errand: WorkerRequest) => void carryOut(errand));

async function carryOut(errand: WorkerRequest): Promise<void> {
  let answer: WorkerResponse['answer'];
  try {
    answer = await answerOf(errand);
  } catch (error) {
    answer = { ok: false, thrown: serializeError(error) };
  }
  parentPort?.postMessage({ id: errand.id, answer } satisfies WorkerResponse);
  Atomics.sub(open, 0, 1);
  Atomics.notify(open, 0);
}

async function answerOf({
  call,
  input,
  book: at,
  now,
  upload,
  actor,
}: WorkerRequest): Promise<WorkerResponse['answer']> {
  const procedure = procedures[call as keyof typeof procedures] as unknown as AnyProcedure;
  const clock = () => new Date(now);
  const book = openRecordBook(at.path, clock(), at.demo, true);
  try {
    const session = createSession({
      book,
      demo: at.demo,
      clock,
      host: { openDemo: noOther, leaveDemo: noOther },
    });
    acceptClock(session);
    if (upload) adoptUpload(session, upload);
    const work = () => respond(procedure, session, input);
    const value = await (actor ? actAs(actorOf(session, actor), work) : work());
    // An import of earlier animals deletes the summaries of their seasons; the desk would otherwise recompute all
    // of them on its next query.
    if (procedure.kind === 'write') while (summariseNext(session));
    return { ok: true, value, parcel: releaseExport(session) };
  } finally {
    book.leave();
  }
}

function respond(procedure: AnyProcedure, session: Session, input: unknown): unknown {
  if (procedure.kind === 'door') return procedure.run(doorOf(session), input);
  if (procedure.kind === 'write') return session.book.change(() => procedure.run(session, input));
  return procedure.run(session, input);
}

/** A door with the session only: calls that open another book never run here. */
function doorOf(session: Session): Door {
  return {
    session,
    trouble: null,
    bookPath: session.book.path,
    now: () => new Date(session.now()),
    ledgerProgram: new URL('about:blank'), // no call that starts one runs here
    onBroken: noOther,
    open: noOther,
    tryAgain: noOther,
    openDemo: noOther,
    leaveDemo: noOther,
    restore: noOther,
    recover: noOther,
    beginAnew: noOther,
  };
}

function noOther(): never {
  throw new Error('a worker opens no other book');
}
