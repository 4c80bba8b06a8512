/**
 * A strict double of the `electron` module: only the members that the shell uses, in the order that Electron
 * requires. It records what the shell sets and simulates system events.
 */
import { utilityProcessDouble, type DeskThread } from './desk-thread.ts';
import { keyStoreDouble } from './key-store.ts';
import { menuDouble, type MenuItem } from './menu.ts';
import { MessageChannelMain } from './ports.ts';
import { dialogsDouble } from './dialogs.ts';
import { downloadsDouble } from './downloads.ts';
import { serialDouble } from './serial.ts';
import { once, preventable, strict, StrictEmitter } from './strict.ts';
import { WindowDouble, type Surroundings } from './windows.ts';

type Rights = (contents: unknown, right: string, answer: (allowed: boolean) => void, details: object) => void;
type Check = (contents: unknown, right: string, origin: string) => boolean;
type BeforeRequest = (details: { url: string }, answer: (response: { cancel: boolean }) => void) => void;

/** Folders that `app.getPath` accepts. */
type Folders = Record<'userData' | 'logs' | 'documents', string>;

const APP_EVENTS = [
  'browser-window-created',
  'child-process-gone',
  'web-contents-created',
  'second-instance',
  'open-file',
  'window-all-closed',
  'before-quit',
  'will-quit',
];

export interface DoubleOptions {
  folders: Folders;
  onlyInstance?: boolean;
  /** Whether the program is installed rather than started from source. */
  installed?: boolean;
  /** Switches on Chromium's command line, such as `no-sandbox`. */
  switches?: string[];
  /** Events of a window and its page that never occur, such as `ready-to-show` under Wayland. */
  withheld?: string[];
  /** The book that macOS opens the program with; the event precedes ready. */
  openedWith?: string;
  /** Errors of calls by name, such as `showMessageBox` without a display. */
  rejects?: Partial<Record<'loadURL' | 'showMessageBox' | 'BrowserWindow', Error>>;
  /** A folder that the system cannot name. */
  noFolder?: keyof Folders;
  /** The work areas of the screens; default: one ordinary screen. */
  screens?: { x: number; y: number; width: number; height: number }[];
}

const ONE_SCREEN = [{ x: 0, y: 0, width: 1920, height: 1040 }];

export function electronDouble(options: DoubleOptions) {
  const app = new StrictEmitter('app', APP_EVENTS);
  const powerMonitor = new StrictEmitter('powerMonitor', ['shutdown', 'suspend', 'resume']);
  const scheme = once<(request: { url: string }) => Promise<Response>>('protocol.handle');
  const requestRights = once<Rights>('setPermissionRequestHandler');
  const checkRights = once<Check>('setPermissionCheckHandler');
  const beforeRequest = once<BeforeRequest>('onBeforeRequest');
  const serial = serialDouble();
  const downloads = downloadsDouble();
  const dialogs = dialogsDouble(
    () => record.ready,
    () => record.windows.filter(({ shown }) => shown),
    options.rejects?.showMessageBox,
  );
  const sessionListeners: Record<string, (listener: never) => void> = {
    'select-serial-port': serial.onSelect,
    'will-download': downloads.onDownload,
  };
  const keyStore = keyStoreDouble(() => record.ready);
  let blockers = 0;
  const ipc = new Map<string, (event: object, ...args: unknown[]) => void>();
  const record = {
    app,
    windows: [] as WindowDouble[],
    desks: [] as DeskThread[],
    keyStore: keyStore.record,
    ...dialogs.record,
    answerStanding: dialogs.answerStanding,
    menu: [] as MenuItem[],
    schemes: [] as { scheme: string; privileges: Record<string, boolean> }[],
    powerMonitor,
    /** What keeps the system from sleeping, by id. */
    blockers: new Map<number, string>(),
    /** The application id for the Windows taskbar. */
    appUserModelId: null as string | null,
    /** Files shown in the system's file manager. */
    shownFiles: [] as string[],
    /** The data that this start would pass to a first instance. */
    handedOver: undefined as unknown,
    ready: false,
    /** The exit code, once the program has ended. */
    ended: null as number | null,
    /** The origin of the frame that messages from a page claim; null = the frame is gone. */
    frame: undefined as { url: string } | null | undefined,
    load: (address: string) => scheme.handler()({ url: address }),
    requestRights: (right: string, requestingUrl: string) =>
      new Promise<boolean>((resolve) => requestRights.handler()(null, right, resolve, { requestingUrl })),
    checkRights: (right: string, origin: string) => checkRights.handler()(null, right, origin),
    blocks: (url: string) =>
      new Promise<boolean>((resolve) => beforeRequest.handler()({ url }, ({ cancel }) => resolve(cancel))),
    selectPort: serial.select,
    mayUseDevice: serial.mayUse,
    download: downloads.download,
    /** Starts the program again with these arguments. */
    startAgain: (...args: string[]) =>
      app.emit('second-instance', {}, ['electron', ...args], '/', structuredClone({ args, folder: '/' })),
    say: (channel: string, event: object) => ipc.get(channel)?.(event),
  };

  const around: Surroundings = {
    withheld: options.withheld ?? [],
    rejects: () => options.rejects?.loadURL,
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

  let quitting = false;
  /** Closes the windows, unless one prevents it, then asks whether to quit. */
  function quit(): void {
    if (record.ended !== null || quitting) return;
    app.emit('before-quit', preventable({}));
    if (!record.windows.every((window) => window.closes())) return;
    quitting = true;
    const closing = record.windows.splice(0);
    for (const window of closing) window.end();
    const leaving = preventable({});
    app.emit('will-quit', leaving);
    if (!leaving.prevented()) record.ended = 0;
    // If windows had to close first, the runtime asks by itself, and promise callbacks of a listener run before it
    // has processed the refusal: a quit requested then is lost (electron/electron#33643).
    // takes note of the refusal: a quit that is asked for then is lost (electron/electron#33643).
    if (closing.length > 0) setImmediate(() => (quitting = false));
    else quitting = false;
  }

  const session = strict('session', {
    setPermissionRequestHandler: requestRights.set,
    setPermissionCheckHandler: checkRights.set,
    on(event: string, listener: never) {
      const set = sessionListeners[event];
      if (!set) throw new Error(`session has no event "${event}"`);
      set(listener);
    },
    setDevicePermissionHandler: serial.setDevicePermissionHandler,
    webRequest: strict('webRequest', { onBeforeRequest: beforeRequest.set }),
  });
  const electron = {
    app: strict('app', {
      on: app.on.bind(app),
      commandLine: strict('commandLine', {
        hasSwitch: (name: string) => (options.switches ?? []).includes(name),
      }),
      // Only Windows has it.
      ...(process.platform === 'win32' && {
        setAppUserModelId: (id: string) => void (record.appUserModelId = id),
      }),
      requestSingleInstanceLock(more: object) {
        record.handedOver = structuredClone(more);
        return options.onlyInstance ?? true;
      },
      whenReady: async () => {
        await new Promise((resolve) => setImmediate(resolve));
        if (options.openedWith !== undefined) app.emit('open-file', preventable({}), options.openedWith);
        record.ready = true;
      },
      getPath(name: string) {
        if (!Object.hasOwn(options.folders, name)) throw new Error(`Who needs ${name}?`);
        if (options.noFolder === name) throw new Error(`Failed to get '${name}' path`);
        return options.folders[name as keyof Folders];
      },
      getVersion: () => '0.1.0',
      isPackaged: options.installed ?? false,
      quit,
      exit: (code: number) => (record.ended ??= code),
    }),
    BrowserWindow: class extends WindowDouble {
      static getAllWindows(): WindowDouble[] {
        return [...record.windows];
      }
      constructor(windowOptions: WindowDouble['options']) {
        if (!record.ready) throw new Error('No window before ready');
        if (options.rejects?.BrowserWindow) throw options.rejects.BrowserWindow;
        if (windowOptions.webPreferences['sandbox'] !== true) throw new Error('A window without a sandbox');
        super(windowOptions, around);
        record.windows.push(this);
        app.emit('browser-window-created', preventable({}), this);
      }
    },
    Menu: menuDouble((items) => record.menu.splice(0, Infinity, ...items)),
    MessageChannelMain,
    dialog: dialogs.dialog,
    powerSaveBlocker: strict('powerSaveBlocker', {
      start(kind: string) {
        if (!record.ready) throw new Error('No power blocker before ready');
        if (!['prevent-app-suspension', 'prevent-display-sleep'].includes(kind))
          throw new Error(`There is no ${kind}`);
        record.blockers.set((blockers += 1), kind);
        return blockers;
      },
      stop(id: number) {
        if (!record.blockers.delete(id)) throw new Error(`No power blocker ${id} runs`);
        return true;
      },
    }),
    powerMonitor: strict('powerMonitor', { on: powerMonitor.on.bind(powerMonitor) }),
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
    screen: strict('screen', {
      getAllDisplays() {
        if (!record.ready) throw new Error('No screen before ready');
        return (options.screens ?? ONE_SCREEN).map((workArea) => ({ workArea }));
      },
    }),
    safeStorage: keyStore.safeStorage,
    shell: strict('shell', { showItemInFolder: (path: string) => void record.shownFiles.push(path) }),
    session: strict('session', {
      get defaultSession() {
        if (!record.ready) throw new Error('No session before ready');
        return session;
      },
    }),
    utilityProcess: strict(
      'utilityProcess',
      utilityProcessDouble(() => record.ready, record.desks),
    ),
  };
  return { electron, record };
}

export type Electron = ReturnType<typeof electronDouble>['electron'];
export type ElectronRecord = ReturnType<typeof electronDouble>['record'];
