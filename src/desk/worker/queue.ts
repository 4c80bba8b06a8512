/** The desk's queue of calls to its worker thread. Each is answered as if it had run here. */
import { SHARE_ENV, Worker } from 'node:worker_threads';
import type { Session } from '../session/session.ts';
import { deserializeError, type WorkerResponse, type WorkerRequest } from './messages.ts';

/** A hanging call must not prevent the program from ending. */
const MAX_WAIT_MS = 120_000;

interface Waiting {
  resolve(answer: WorkerResponse['answer'] & { ok: true }): void;
  reject(error: Error): void;
}

/** The thread ended with calls pending. Their writes were rolled back. */
export class WorkerLost extends Error {}

export class WorkerQueue {
  /** False once a thread could not start: then everything runs here, if more slowly. */
  usable = true;
  readonly #program: URL;
  readonly #open = new Int32Array(new SharedArrayBuffer(4));
  readonly #waiting = new Map<number, Waiting>();
  #worker: Worker | null = null;
  #last = 0;
  #answered = false;

  /** @param program the worker's script: `worker.ts` itself, or its build */
  constructor(program: URL = new URL('../worker.ts', import.meta.url)) {
    this.#program = program;
  }

  /** Runs a call in the worker. @throws the call's error; WorkerLost */
  send(
    session: Session,
    errand: Pick<WorkerRequest, 'call' | 'input' | 'upload' | 'actor'>,
  ): Promise<WorkerResponse['answer'] & { ok: true }> {
    const worker = this.#started();
    const id = ++this.#last;
    worker.ref();
    Atomics.add(this.#open, 0, 1);
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      const book = { path: session.book.path, demo: session.demo };
      worker.postMessage({ ...errand, id, book, now: session.now() } satisfies WorkerRequest);
    });
  }

  /** Blocks this thread until nothing is pending: a book is closed only when nobody else has it open. */
  settle(): void {
    const until = Date.now() + MAX_WAIT_MS;
    for (let open = this.#count(); open > 0 && Date.now() < until; open = this.#count())
      Atomics.wait(this.#open, 0, open, until - Date.now());
  }

  /** Ends the thread after its pending work. */
  end(): void {
    this.settle();
    void this.#worker?.terminate();
    this.#worker = null;
  }

  #count(): number {
    return Atomics.load(this.#open, 0);
  }

  #started(): Worker {
    if (this.#worker) return this.#worker;
    const worker = new Worker(this.#program, {
      workerData: { open: this.#open.buffer },
      execArgv: [],
      env: SHARE_ENV,
    });
    worker.on('message', (done: WorkerResponse) => this.#done(worker, done));
    worker.on('error', (error) => this.#lost(worker, error));
    worker.on('exit', () => this.#lost(worker, new WorkerLost('the worker thread ended')));
    return (this.#worker = worker);
  }

  #done(worker: Worker, { id, answer }: WorkerResponse): void {
    this.#answered = true;
    const waiting = this.#waiting.get(id);
    this.#waiting.delete(id);
    if (this.#waiting.size === 0) worker.unref();
    if (answer.ok) waiting?.resolve(answer);
    else waiting?.reject(deserializeError(answer.thrown));
  }

  #lost(worker: Worker, error: unknown): void {
    if (this.#worker !== worker) return;
    this.#worker = null;
    this.usable = this.#answered;
    Atomics.store(this.#open, 0, 0);
    for (const { reject } of this.#waiting.values()) reject(new WorkerLost(String(error)));
    this.#waiting.clear();
  }
}
