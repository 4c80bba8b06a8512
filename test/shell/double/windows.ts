/** Windows as the shell sees them: options are recorded, pages load through the registered scheme. */
import { checkOptions, preventable, StrictEmitter, strict } from './strict.ts';
import { openPage, type Page } from './page.ts';
import { rawPorts } from './ports.ts';

const WINDOW_OPTIONS = ['width', 'height', 'minWidth', 'minHeight', 'title', 'show', 'webPreferences'];
const CONTENTS_EVENTS = [
  'will-navigate',
  'will-redirect',
  'will-frame-navigate',
  'will-attach-webview',
  'render-process-gone',
];

/** What windows need of the rest of the double. */
export interface Surroundings {
  created(contents: WebContentsDouble): void;
  load(address: string): Promise<Response>;
  fromPage(contents: WebContentsDouble, channel: string, args: unknown[]): void;
  closed(window: WindowDouble): void;
}

export class WebContentsDouble extends StrictEmitter {
  page: Page | null = null;
  loads = 0;
  prints: object[] = [];
  printResult: [boolean, string] = [true, ''];
  openHandler: ((details: { url: string }) => { action: string }) | null = null;
  address = '';
  readonly #preload: string;
  readonly #around: Surroundings;

  constructor(preload: string, around: Surroundings) {
    super('WebContents', CONTENTS_EVENTS);
    this.#preload = preload;
    this.#around = around;
  }

  async open(address: string): Promise<void> {
    const response = await this.#around.load(address);
    if (response.status !== 200) throw new Error(`${address} answered ${response.status}`);
    this.address = address;
    this.loads += 1;
    this.page = openPage(this.#preload, (channel, args) => this.#around.fromPage(this, channel, args));
  }

  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }

  getURL(): string {
    return this.address;
  }

  postMessage(channel: string, message: unknown, transfer?: readonly unknown[]): void {
    this.page?.receive(channel, message, rawPorts(transfer));
  }

  print(options: object, done: (success: boolean, reason: string) => void): void {
    checkOptions('print', options, ['silent', 'deviceName', 'pageSize', 'margins', 'landscape']);
    this.prints.push(structuredClone(options));
    done(...this.printResult);
  }

  reload(): void {
    void this.open(this.address);
  }

  /** Plays a navigation that the page tries; true when it was let through. */
  tries(event: 'will-navigate' | 'will-redirect' | 'will-frame-navigate', url: string): boolean {
    const details = preventable({ url });
    this.emit(event, details);
    return !details.prevented();
  }
}

export class WindowDouble extends StrictEmitter {
  readonly options: { width: number; height: number; webPreferences: Record<string, unknown> };
  /** For tests; the shell sees `webContents`, which knows only what Electron's has and is used. */
  readonly contents: WebContentsDouble;
  readonly webContents: WebContentsDouble;
  readonly #around: Surroundings;
  shown = false;
  maximized = false;
  minimized = false;
  focused = 0;

  constructor(options: WindowDouble['options'], around: Surroundings) {
    super('BrowserWindow', ['ready-to-show', 'close', 'closed']);
    checkOptions('BrowserWindow', options, WINDOW_OPTIONS);
    this.options = structuredClone(options);
    this.#around = around;
    this.contents = new WebContentsDouble(String(options.webPreferences['preload']), around);
    this.webContents = strict('webContents', this.contents);
    around.created(this.webContents);
  }

  async loadURL(address: string): Promise<void> {
    await this.webContents.open(address);
    this.emit('ready-to-show');
  }

  show(): void {
    this.shown = true;
  }
  maximize(): void {
    this.maximized = true;
  }
  isMaximized(): boolean {
    return this.maximized;
  }
  isMinimized(): boolean {
    return this.minimized;
  }
  restore(): void {
    this.minimized = false;
  }
  focus(): void {
    this.focused += 1;
  }
  getNormalBounds(): { x: number; y: number; width: number; height: number } {
    return { x: 0, y: 0, width: this.options.width, height: this.options.height };
  }
  /** The person closes it. */
  close(): void {
    this.emit('close', preventable({}));
    this.emit('closed');
    this.#around.closed(this);
  }
}
