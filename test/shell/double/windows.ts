/** Windows as the shell sees them: options are recorded, pages load through the registered scheme. */
import { checkOptions, preventable, StrictEmitter, strict } from './strict.ts';
import { openPage, type Page } from './page.ts';
import { rawPorts } from './ports.ts';

const WINDOW_OPTIONS = ['x', 'y', 'width', 'height', 'minWidth', 'minHeight', 'resizable', 'closable', 'title', 'show', 'webPreferences']; // prettier-ignore
const CONTENTS_EVENTS = [
  'will-navigate',
  'will-redirect',
  'will-frame-navigate',
  'will-attach-webview',
  'render-process-gone',
  'did-finish-load',
  'did-fail-load',
];

const PRINT_OPTIONS = ['silent', 'deviceName', 'printBackground', 'usePrinterDefaultPageSize', 'pageSize', 'margins', 'landscape']; // prettier-ignore

/** A printer with the members of Electron's structure. */
interface PrinterDouble {
  name: string;
  displayName: string;
  description: string;
  options: object;
}

/** The parts of the double that windows need. */
export interface Surroundings {
  created(contents: WebContentsDouble): void;
  load(address: string): Promise<Response>;
  fromPage(contents: WebContentsDouble, channel: string, args: unknown[]): void;
  closed(window: WindowDouble): void;
  /** Events that never occur. */
  withheld: readonly string[];
  /** The error with which loading a page fails, if any. */
  rejects(): Error | undefined;
}

class WebContentsDouble extends StrictEmitter {
  page: Page | null = null;
  loads = 0;
  prints: object[] = [];
  /** The paper of each print: microns, or its source. */
  papers: unknown[] = [];
  printResult: [boolean, string] = [true, ''];
  openHandler: ((details: { url: string }) => { action: string }) | null = null;
  address = '';
  printers: PrinterDouble[] = [];
  /** The page as a PDF; null: the runtime fails. */
  pdf: Buffer | null = Buffer.from('%PDF-1.7');
  destroyed = false;
  readonly #preload: string | null;
  readonly #around: Surroundings;

  constructor(preload: string | null, around: Surroundings) {
    super('WebContents', CONTENTS_EVENTS);
    this.#preload = preload;
    this.#around = around;
  }

  /**
   * Loads an address; on failure emits the event first and then rejects, as Electron does. Any HTTP status counts as
   * loaded; only network errors fail. A superseded load rejects without an event.
   */
  async open(address: string): Promise<void> {
    checkAlive(this.destroyed);
    const refused = this.#around.rejects();
    const response = refused ? null : await this.#around.load(address);
    if (!response || response.type === 'error') {
      const error =
        refused ?? Object.assign(new Error(`ERR_FAILED (-2) loading '${address}'`), { errno: -2 });
      if ((error as { errno?: number }).errno !== -3)
        this.#tell('did-fail-load', {}, -2, 'ERR_FAILED', address, true);
      throw error;
    }
    this.address = address;
    this.loads += 1;
    const { fromPage } = this.#around;
    this.page =
      this.#preload === null
        ? null
        : openPage(this.#preload, (channel, args) => fromPage(this, channel, args));
    this.#tell('did-finish-load', {});
  }

  #tell(event: string, ...details: unknown[]): void {
    if (!this.#around.withheld.includes(event)) this.emit(event, ...details);
  }

  setWindowOpenHandler(handler: (details: { url: string }) => { action: string }): void {
    this.openHandler = handler;
  }

  isDestroyed(): boolean {
    return this.destroyed;
  }

  getURL(): string {
    checkAlive(this.destroyed);
    return this.address;
  }

  postMessage(channel: string, message: unknown, transfer?: readonly unknown[]): void {
    checkAlive(this.destroyed);
    this.page?.receive(channel, message, rawPorts(transfer));
  }

  print(options: object, done: (success: boolean, reason: string) => void): void {
    checkAlive(this.destroyed);
    checkOptions('print', options, PRINT_OPTIONS);
    if ('deviceName' in options && !this.printers.some(({ name }) => name === options.deviceName))
      throw new Error('There is no such printer');
    if ('usePrinterDefaultPageSize' in options && 'pageSize' in options)
      throw new Error('usePrinterDefaultPageSize and pageSize exclude each other');
    if ('pageSize' in options) checkPageSize(options.pageSize);
    if ('margins' in options) checkMargins(options.margins as { marginType?: string });
    if (!('pageSize' in options) && !('usePrinterDefaultPageSize' in options))
      throw new Error('A print without a page size: Electron takes A4, or refuses');
    this.papers.push('pageSize' in options ? options.pageSize : 'of the printer');
    this.prints.push(structuredClone(options));
    const result = this.printResult;
    setImmediate(() => done(...result));
  }

  async getPrintersAsync(): Promise<PrinterDouble[]> {
    checkAlive(this.destroyed);
    return structuredClone(this.printers);
  }

  async printToPDF(options: object): Promise<Buffer> {
    checkAlive(this.destroyed);
    checkOptions('printToPDF', options, ['preferCSSPageSize', 'printBackground', 'pageSize', 'landscape', 'margins', 'scale']); // prettier-ignore
    if (!this.pdf) throw new Error('Failed to generate PDF: Printing failed');
    return this.pdf;
  }

  /** Without a return value: only events report the result. */
  reload(): void {
    checkAlive(this.destroyed);
    this.open(this.address).catch(() => undefined);
  }

  forcefullyCrashRenderer(): void {
    checkAlive(this.destroyed);
    this.emit('render-process-gone', {}, { reason: 'killed', exitCode: 9 });
  }

  /** Simulates a navigation by the page; true if it was allowed. */
  tries(event: 'will-navigate' | 'will-redirect' | 'will-frame-navigate', url: string): boolean {
    const details = preventable({ url });
    this.emit(event, details);
    return !details.prevented();
  }
}

export class WindowDouble extends StrictEmitter {
  readonly options: {
    x?: number;
    y?: number;
    width: number;
    height: number;
    closable?: boolean;
    webPreferences: Record<string, unknown>;
  };
  /** For tests; the shell sees `webContents`, limited to Electron's members in use. */
  readonly contents: WebContentsDouble;
  readonly #webContents: WebContentsDouble;
  readonly #around: Surroundings;
  shown = false;
  /** The number of times it was shown. */
  shows = 0;
  maximized = false;
  minimized = false;
  focused = 0;
  progress: number | null = null;
  destroyed = false;
  /** Moved by the person since it was opened. */
  moved: { x: number; y: number } | null = null;

  constructor(options: WindowDouble['options'], around: Surroundings) {
    super('BrowserWindow', [
      'ready-to-show',
      'close',
      'closed',
      'unresponsive',
      'query-session-end',
      'session-end',
    ]);
    checkOptions('BrowserWindow', options, WINDOW_OPTIONS);
    this.options = structuredClone(options);
    this.#around = around;
    const { preload } = options.webPreferences;
    this.contents = new WebContentsDouble(typeof preload === 'string' ? preload : null, around);
    this.#webContents = strict('webContents', this.contents);
    around.created(this.#webContents);
  }

  get webContents(): WebContentsDouble {
    checkAlive(this.destroyed);
    return this.#webContents;
  }

  async loadURL(address: string): Promise<void> {
    checkAlive(this.destroyed);
    await this.contents.open(address);
    if (!this.#around.withheld.includes('ready-to-show')) this.emit('ready-to-show');
  }

  show(): void {
    checkAlive(this.destroyed);
    this.shown = true;
    this.shows += 1;
  }
  isVisible(): boolean {
    checkAlive(this.destroyed);
    return this.shown;
  }
  isDestroyed(): boolean {
    return this.destroyed;
  }
  maximize(): void {
    checkAlive(this.destroyed);
    this.maximized = true;
  }
  isMaximized(): boolean {
    checkAlive(this.destroyed);
    return this.maximized;
  }
  isMinimized(): boolean {
    checkAlive(this.destroyed);
    return this.minimized;
  }
  restore(): void {
    checkAlive(this.destroyed);
    this.minimized = false;
  }
  focus(): void {
    checkAlive(this.destroyed);
    this.focused += 1;
  }
  getNormalBounds(): { x: number; y: number; width: number; height: number } {
    checkAlive(this.destroyed);
    const { x = 0, y = 0, width, height } = { ...this.options, ...this.moved };
    return { x, y, width, height };
  }
  setProgressBar(share: number): void {
    checkAlive(this.destroyed);
    this.progress = share;
  }
  /** May be repeated: the only call besides `isDestroyed` that a destroyed window accepts. */
  destroy(): void {
    if (this.destroyed) return;
    this.end();
    this.#around.closed(this);
  }
  /** Destroys the window and its page. */
  end(): void {
    this.destroyed = true;
    this.contents.destroyed = true;
    this.emit('closed');
  }
  /** Windows ends the person's session: when this returns, the process has ended. */
  endSession(...reasons: ('shutdown' | 'close-app' | 'critical' | 'logoff')[]): void {
    this.emit('session-end', preventable({ reasons }));
  }
  /** The person closes it; false if the window prevents it. Linux lets a person close every window. */
  close(): boolean {
    if (!this.closes()) return false;
    this.end();
    this.#around.closed(this);
    return true;
  }
  /** Asks the shell whether it may close now. */
  closes(): boolean {
    if (this.options.closable === false && process.platform !== 'linux') return false;
    const event = preventable({});
    this.emit('close', event);
    return !event.prevented();
  }
}

/** Electron throws if a destroyed window or page is used. */
function checkAlive(destroyed: boolean): void {
  if (destroyed) throw new TypeError('Object has been destroyed');
}

/** Electron's check: a name, or sides in microns of at least 353. */
function checkPageSize(size: unknown): void {
  const sides = size as { width?: unknown; height?: unknown };
  if (typeof size === 'string') return;
  for (const side of [sides.width, sides.height])
    if (typeof side !== 'number' || !(side >= 353))
      throw new Error('A page size needs width and height, microns');
}

function checkMargins({ marginType }: { marginType?: string }): void {
  if (!['default', 'none', 'printableArea', 'custom'].includes(marginType ?? ''))
    throw new Error(`There is no kind of margins ${marginType}`);
}
