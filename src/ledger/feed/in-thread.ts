/** The thread's side of `thread.ts`. */
import type { MessagePort } from 'node:worker_threads';
import { connect } from '../server/connect.ts';
import { startFeeder } from './feeder.ts';
import { gateOf } from './gate.ts';
import type { FromThread, ThreadData, ToThread } from './thread.ts';

/** Feeds one book until the desk tells it to end. */
export function feedInThread({ shared, address, password, ...feed }: ThreadData, desk: MessagePort): void {
  const post = (message: FromThread): void => desk.postMessage(message);
  const feeder = startFeeder({
    ...feed,
    gate: gateOf(shared),
    connect: () => connect(address, password),
    onState: (state) => post({ kind: 'state', state }),
    onLessons: (lessons) => post({ kind: 'lessons', lessons }),
    onBroken: (error) =>
      post({
        kind: 'broken',
        error: error instanceof Error ? (error.stack ?? error.message) : String(error),
      }),
  });
  desk.on('message', (message: ToThread) => {
    if (message === 'wake') feeder.wake();
    else if (message === 'stop') feeder.stop();
    else feeder.exchange(message.exchange);
  });
  void feeder.ended.then(() => desk.close());
}
