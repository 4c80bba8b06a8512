/** The feeder's thread: feeds one book until the desk tells it to end. */
import { parentPort, workerData } from 'node:worker_threads';
import { startFeeder } from './feed/feeder.ts';
import { gateOf } from './feed/gate.ts';
import type { FromThread, ThreadData, ToThread } from './feed/thread.ts';
import { connect } from './server/connect.ts';

const { shared, address, password, ...feed } = workerData as ThreadData;
const post = (message: FromThread): void => parentPort?.postMessage(message);

const feeder = startFeeder({
  ...feed,
  gate: gateOf(shared),
  connect: () => connect(address, password),
  onState: (state) => post({ kind: 'state', state }),
  onBroken: (error) =>
    post({ kind: 'broken', error: error instanceof Error ? (error.stack ?? error.message) : String(error) }),
});
parentPort?.on('message', (message: ToThread) => {
  if (message === 'wake') feeder.wake();
  else feeder.stop();
});
void feeder.ended.then(() => parentPort?.close());
