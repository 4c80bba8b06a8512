/** Message ports with the interface of Electron's main process, over Node's own. */
import { EventEmitter } from 'node:events';
import { MessageChannel, type MessagePort, type Transferable } from 'node:worker_threads';

/** Like `MessagePortMain`: an emitter that is silent until started. */
class PortMain extends EventEmitter {
  readonly raw: MessagePort;

  constructor(raw: MessagePort) {
    super();
    this.raw = raw;
  }

  start(): void {
    this.raw.on('message', (data: unknown) => this.emit('message', { data, ports: [] }));
    this.raw.on('close', () => this.emit('close'));
  }

  postMessage(message: unknown): void {
    this.raw.postMessage(message);
  }

  close(): void {
    this.raw.close();
  }
}

export class MessageChannelMain {
  readonly port1: PortMain;
  readonly port2: PortMain;

  constructor() {
    const { port1, port2 } = new MessageChannel();
    this.port1 = new PortMain(port1);
    this.port2 = new PortMain(port2);
  }
}

/** The real ports of a transfer list; Electron cannot transfer anything else. */
export function rawPorts(transfer: readonly unknown[] | undefined): MessagePort[] & Transferable[] {
  return (transfer ?? []).map((port) => {
    if (!(port instanceof PortMain)) throw new Error('Only message ports can be transferred');
    return port.raw;
  });
}
