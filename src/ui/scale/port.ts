/** The part of the browser's serial API in use (WICG Web Serial); the practice scale implements the same. */
export interface PortSettings {
  /** Bits per second. */
  baudRate: number;
  dataBits: 7 | 8;
  parity: 'none' | 'even' | 'odd';
  stopBits: 1 | 2;
}

export interface PortInfo {
  usbVendorId?: number;
  usbProductId?: number;
}

export interface ScalePort {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  open(settings: PortSettings): Promise<void>;
  close(): Promise<void>;
  getInfo(): PortInfo;
}

export interface PortSource extends Pick<EventTarget, 'addEventListener'> {
  /** Ports with permission for this window. */
  getPorts(): Promise<ScalePort[]>;
  /** Asks the person for a port; only from a click or a key. */
  requestPort(): Promise<ScalePort>;
}

/** The ports of this window; null in browsers without them. */
export function portsOf(navigator: Navigator): PortSource | null {
  return 'serial' in navigator ? (navigator.serial as PortSource) : null;
}

/** Whether a port is the last one: many adapters have no serial number, so this is a hint. */
export function isSamePort(info: PortInfo, last: PortInfo): boolean {
  return info.usbVendorId === last.usbVendorId && info.usbProductId === last.usbProductId;
}

/**
 * Whether the window runs on desktop Linux, where serial ports require membership in a group. Android also reports
 * Linux.
 */
export function onLinux(agent = navigator.userAgent): boolean {
  return /\bLinux\b/.test(agent) && !/Android/.test(agent);
}
