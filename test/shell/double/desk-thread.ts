/** Double of `utilityProcess`: runs the built desk program in a thread with a `process.parentPort`. */
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { checkOptions, StrictEmitter } from './strict.ts';
import { rawPorts } from './ports.ts';

/** Plain JavaScript, because it runs before our modules are loaded. */
const PRELUDE = `
  const { EventEmitter } = require('node:events');
  const { parentPort, workerData } = require('node:worker_threads');
  class Port extends EventEmitter {
    constructor(raw) { super(); this.raw = raw; }
    start() {
      this.raw.on('message', (data) => this.emit('message', { data, ports: [] }));
      this.raw.on('close', () => this.emit('close'));
    }
    postMessage(message) { this.raw.postMessage(message); }
    close() { this.raw.close(); }
  }
  class ParentPort extends EventEmitter {
    postMessage(message) { parentPort.postMessage(message); }
  }
  process.parentPort = new ParentPort();
  // Electron 36 and later only warn of a rejection that nobody handles: the process stays.
  process.on('unhandledRejection', () => undefined);
  import(workerData.url).then(() => {
    parentPort.on('message', ({ message, ports }) => {
      if (message && message.kind === 'die, for a test') process.exit(message.code);
      if (message && message.kind === 'reject, for a test') return void Promise.reject(new TypeError('nobody hears'));
      process.parentPort.emit('message', { data: message, ports: ports.map((raw) => new Port(raw)) });
    });
  }, (error) => { console.error(error); process.exit(1); });
`;

export class DeskThread extends StrictEmitter {
  readonly #worker: Worker;
  /** Types of the sent messages, in order. */
  readonly sent: string[] = [];
  ended = false;
  /** Whether it stops receiving, as during a write to a slow drive. */
  busy = false;
  #exiting = false;

  constructor(file: string) {
    super('UtilityProcess', ['message', 'exit', 'spawn', 'error']);
    this.#worker = new Worker(PRELUDE, { eval: true, workerData: { url: pathToFileURL(file).href } });
    this.#worker.on('message', (message: unknown) => this.emit('message', message));
    this.#worker.on('exit', (code) => {
      this.ended = true;
      this.#exiting = true;
      this.emit('exit', code);
      this.#exiting = false;
    });
    this.#worker.on('error', (error) => console.error('The desk thread threw', error));
  }

  postMessage(message: { kind: string }, transfer?: readonly unknown[]): void {
    // Later messages are lost silently; here some versions end the whole program (electron/electron#53923).
    if (this.#exiting) throw new Error('Nothing may be sent to a process while its exit is told');
    const ports = rawPorts(transfer);
    this.sent.push(message.kind);
    if (this.busy) return;
    this.#worker.postMessage({ message, ports }, ports);
  }

  kill(): boolean {
    void this.#worker.terminate();
    return true;
  }

  /** Simulates a message from the desk. */
  says(message: object): void {
    this.emit('message', structuredClone(message));
  }

  /** Ends the thread like a crash; 9: it was killed. */
  crash(code = 9): void {
    this.#worker.postMessage({ message: { kind: 'die, for a test', code }, ports: [] });
  }

  /** A fatal error of V8: an emitter's `error`, which throws without a listener. */
  fatal(): void {
    this.emit('error', 'FatalError', 'v8::ToLocalChecked Empty MaybeLocal', '{}');
    this.crash(5);
  }

  /** An unhandled rejection in the desk. */
  rejects(): void {
    this.#worker.postMessage({ message: { kind: 'reject, for a test' }, ports: [] });
  }
}

export function utilityProcessDouble(
  isReady: () => boolean,
  started: DeskThread[],
): {
  fork: (...args: [string, string[], object]) => DeskThread;
} {
  return {
    fork(file, args, options) {
      if (!isReady()) throw new Error('utilityProcess.fork comes after ready');
      if (!Array.isArray(args)) throw new Error('fork needs a list of arguments');
      checkOptions('utilityProcess.fork', options, ['serviceName', 'env', 'execArgv', 'cwd', 'stdio']);
      const thread = new DeskThread(file);
      started.push(thread);
      return thread;
    },
  };
}
