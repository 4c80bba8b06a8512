/** The inside of a window: runs the built preload with a `require` that only has electron, beside a bare page. */
import { readFileSync } from 'node:fs';
import { EventEmitter } from 'node:events';
import type { MessagePort } from 'node:worker_threads';
import { strict } from './strict.ts';

export interface Page {
  /** The page's global object: the preload's exposed API, and messages. */
  window: EventTarget & Record<string, unknown>;
  /** Modules that the preload required. */
  required: string[];
  /** A message from the main process. */
  receive(channel: string, message: unknown, ports: MessagePort[]): void;
}

/** @param send carries `ipcRenderer.send` to the main process */
export function openPage(preload: string, send: (channel: string, args: unknown[]) => void): Page {
  const window = Object.assign(new EventTarget(), {}) as Page['window'];
  window['window'] = window;
  window['postMessage'] = (data: unknown, target: string, transfer: MessagePort[] = []) => {
    if (typeof target !== 'string') throw new Error('postMessage needs a target');
    const event = Object.assign(new Event('message'), {
      data: structuredClone(data),
      source: window,
      ports: transfer,
    });
    queueMicrotask(() => window.dispatchEvent(event));
  };
  const heard = new EventEmitter();
  const required: string[] = [];
  const electron = strict('electron (in a preload)', {
    ipcRenderer: strict('ipcRenderer', {
      on: (channel: string, listener: (...args: unknown[]) => void) => heard.on(channel, listener),
      send: (channel: string, ...args: unknown[]) => send(channel, structuredClone(args)),
    }),
    contextBridge: strict('contextBridge', {
      exposeInMainWorld(name: string, api: Record<string, unknown>) {
        if (name in window) throw new Error(`${name} was exposed twice`);
        for (const [key, value] of Object.entries(api)) {
          if (typeof value !== 'function') structuredClone(value);
          else if (/ipcRenderer/.test(key)) throw new Error('ipcRenderer must not be exposed');
        }
        window[name] = Object.freeze({ ...api });
      },
    }),
  });
  const requireOnly = (name: string) => {
    required.push(name);
    if (name !== 'electron') throw new Error(`A sandboxed preload cannot require ${name}`);
    return electron;
  };
  const module = { exports: {} };
  const run = new Function(
    'require',
    'module',
    'exports',
    'window',
    'process',
    readFileSync(preload, 'utf8'),
  );
  const process = strict('process (in a preload)', {
    versions: { electron: '45.4.1', chrome: '152.0.0.0', node: '24.18.0' },
  });
  run(requireOnly, module, module.exports, window, process);
  return {
    window,
    required,
    receive: (channel, message, ports) => heard.emit(channel, { ports }, structuredClone(message)),
  };
}
