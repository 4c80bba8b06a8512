/**
 * A strict double of the `electron` module: only the members that the shell uses, in the order in which Electron
 * allows them. It records what the shell set and plays what the system does.
 */
import { utilityProcessDouble, type DeskThread } from './desk-thread.ts';
import { menuDouble, type MenuItem } from './menu.ts';
import { MessageChannelMain } from './ports.ts';
import { checkOptions, once, preventable, strict, StrictEmitter } from './strict.ts';
import { serialDouble } from './serial.ts';
import { WindowDouble, type Surroundings } from './windows.ts';

export interface AskedDialog {
  type: string;
  message: string;
  detail?: string;
  buttons: string[];
}

type Rights = (contents: unknown, right: string, answer: (allowed: boolean) => void, details: object) => void;
type Check = (contents: unknown, right: string, origin: string) => boolean;
type BeforeRequest = (details: { url: string }, answer: (response: { cancel: boolean }) => void) => void;

const DIALOG_OPTIONS = ['type', 'title', 'message', 'detail', 'buttons', 'defaultId', 'cancelId', 'noLink'];
const APP_EVENTS = [
  'web-contents-created',
  'second-instance',
  'window-all-closed',
  'before-quit',
  'will-quit',
];

export function electronDouble(options: { userData: string; onlyInstance?: boolean }) {
  const app = new StrictEmitter('app', APP_EVENTS);
  const scheme = once<(request: { url: string }) => Promise<Response>>('protocol.handle');
  const requestRights = once<Rights>('setPermissionRequestHandler');
  const checkRights = once<Check>('setPermissionCheckHandler');
  const beforeRequest = once<BeforeRequest>('onBeforeRequest');
  const serial = serialDouble();
  const ipc = new Map<string, (event: object, ...args: unknown[]) => void>();
  const record = {
    app,
    windows: [] as WindowDouble[],
    desks: [] as DeskThread[],
    dialogs: [] as AskedDialog[],
    /** Answers to dialogs that have a choice, first come first. */
    answers: [] as number[],
    menu: [] as MenuItem[],
    schemes: [] as { scheme: string; privileges: Record<string, boolean> }[],
    sandboxed: false,
    ready: false,
    /** The exit code, once the program has ended. */
    ended: null as number | null,
    /** The frame that messages from a page claim to come from; null = the frame is gone. */
    frame: undefined as { url: string } | null | undefined,
    load: (address: string) => scheme.handler()({ url: address }),
    requestRights: (right: string, requestingUrl: string) =>
      new Promise<boolean>((resolve) => requestRights.handler()(null, right, resolve, { requestingUrl })),
    checkRights: (right: string, origin: string) => checkRights.handler()(null, right, origin),
    blocks: (url: string) =>
      new Promise<boolean>((resolve) => beforeRequest.handler()({ url }, ({ cancel }) => resolve(cancel))),
    selectPort: serial.select,
    mayUseDevice: serial.mayUse,
    say: (channel: string, event: object) => ipc.get(channel)?.(event),
  };

  const around: Surroundings = {
    created: (contents) => app.emit('web-contents-created', {}, contents),
    load: record.load,
    fromPage(contents, channel, args) {
      const handler = ipc.get(channel);
      if (!handler) throw new Error(`Nobody listens on ${channel}`);
      const senderFrame = record.frame === undefined ? { url: contents.address } : record.frame;
      handler({ sender: contents, senderFrame }, ...args);
    },
    closed(window) {
      record.windows.splice(record.windows.indexOf(window), 1);
      if (record.windows.length === 0) app.emit('window-all-closed');
    },
  };

  function quit(): void {
    if (record.ended !== null) return;
    app.emit('before-quit', preventable({}));
    for (const window of record.windows.splice(0)) {
      window.emit('close', preventable({}));
      window.emit('closed');
    }
    const leaving = preventable({});
    app.emit('will-quit', leaving);
    if (!leaving.prevented()) record.ended = 0;
  }

  const session = strict('session', {
    setPermissionRequestHandler: requestRights.set,
    setPermissionCheckHandler: checkRights.set,
    on: serial.on,
    setDevicePermissionHandler: serial.setDevicePermissionHandler,
    webRequest: strict('webRequest', { onBeforeRequest: beforeRequest.set }),
  });
  const electron = {
    app: strict('app', {
      on: app.on.bind(app),
      enableSandbox() {
        if (record.ready) throw new Error('enableSandbox comes before ready');
        record.sandboxed = true;
      },
      requestSingleInstanceLock: () => options.onlyInstance ?? true,
      whenReady: async () => {
        await new Promise((resolve) => setImmediate(resolve));
        record.ready = true;
      },
      getPath(name: string) {
        if (name !== 'userData') throw new Error(`Who needs ${name}?`);
        return options.userData;
      },
      quit,
      exit: (code: number) => (record.ended ??= code),
    }),
    BrowserWindow: class extends WindowDouble {
      constructor(windowOptions: WindowDouble['options']) {
        if (!record.ready) throw new Error('No window before ready');
        super(windowOptions, around);
        record.windows.push(this);
      }
    },
    Menu: menuDouble((items) => record.menu.push(...items)),
    MessageChannelMain,
    dialog: strict('dialog', {
      async showMessageBox(asked: AskedDialog) {
        checkOptions('showMessageBox', asked, DIALOG_OPTIONS);
        record.dialogs.push(structuredClone(asked));
        const response = asked.buttons.length === 1 ? 0 : record.answers.shift();
        if (response === undefined) throw new Error(`Nobody answers: ${asked.message}`);
        return { response, checkboxChecked: false };
      },
    }),
    ipcMain: strict('ipcMain', {
      on(channel: string, listener: (event: object, ...args: unknown[]) => void) {
        if (ipc.has(channel)) throw new Error(`${channel} is listened to twice`);
        ipc.set(channel, listener);
      },
    }),
    protocol: strict('protocol', {
      registerSchemesAsPrivileged(schemes: typeof record.schemes) {
        if (record.ready || record.schemes.length > 0)
          throw new Error('Schemes are declared once, before ready');
        record.schemes.push(...structuredClone(schemes));
      },
      handle(name: string, handler: (request: { url: string }) => Promise<Response>) {
        if (!record.ready) throw new Error('protocol.handle comes after ready');
        if (record.schemes[0]?.scheme !== name) throw new Error(`${name} was not declared`);
        scheme.set(handler);
      },
    }),
    session: strict('session', {
      get defaultSession() {
        if (!record.ready) throw new Error('No session before ready');
        return session;
      },
    }),
    utilityProcess: strict('utilityProcess', utilityProcessDouble(record.desks)),
  };
  return { electron, record };
}

export type Electron = ReturnType<typeof electronDouble>['electron'];
export type ElectronRecord = ReturnType<typeof electronDouble>['record'];
