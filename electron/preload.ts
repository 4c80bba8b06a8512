/**
 * Runs in the sandboxed window before its page and passes it the port to the desk. A single file that requires only
 * electron.
 */
import { contextBridge, ipcRenderer } from 'electron';
import type { PreloadApi } from '../src/bridge/client/preload-api.ts';
import { DESK_PORT_CHANNEL, LANGUAGE_CHANNEL, PRINT_LABELS_CHANNEL } from '../src/bridge/wire.ts';

ipcRenderer.on(DESK_PORT_CHANNEL, (event) => window.postMessage(DESK_PORT_CHANNEL, '*', event.ports));

contextBridge.exposeInMainWorld('gambrel', {
  askForDesk: () => ipcRenderer.send(DESK_PORT_CHANNEL),
  printLabels: (paper) => ipcRenderer.send(PRINT_LABELS_CHANNEL, paper),
  speak: (language) => ipcRenderer.send(LANGUAGE_CHANNEL, language),
  versions: {
    electron: process.versions['electron'] ?? '',
    chromium: process.versions['chrome'] ?? '',
    node: process.versions.node,
  },
} satisfies PreloadApi);
