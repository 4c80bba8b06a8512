import type { ScaleForm } from '../../core/scale/line.ts';
import type { PortInfo, PortSettings } from './port.ts';

/** Settings of the scale connection. */
export interface ScaleSettings extends PortSettings {
  /** The request for a weight, with `\r` and `\n` written as escapes; empty for a scale that sends on its own. */
  request: string;
  form: ScaleForm | null;
  /** The last port. */
  port: PortInfo | null;
}

/** Baud rates of scales. Common practice, no source. */
export const SPEEDS = [1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200] as const;

/** Factory settings of most scales. Common practice, no source. */
export const USUAL: Readonly<ScaleSettings> = {
  baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1, request: '', form: null, port: null,
}; // prettier-ignore

/** Stored settings; missing or invalid values are replaced by defaults. */
export function readSettings(stored: string | null): ScaleSettings {
  const found = objectIn(stored);
  const one = <T>(value: unknown, of: readonly T[], usual: T): T =>
    of.includes(value as T) ? (value as T) : usual;
  return {
    baudRate: one(found.baudRate, SPEEDS as readonly number[], USUAL.baudRate),
    dataBits: one(found.dataBits, [7, 8], USUAL.dataBits),
    parity: one(found.parity, ['none', 'even', 'odd'], USUAL.parity),
    stopBits: one(found.stopBits, [1, 2], USUAL.stopBits),
    request: typeof found.request === 'string' ? found.request : USUAL.request,
    form: isForm(found.form) ? found.form : null,
    port: isPort(found.port) ? found.port : null,
  };
}

/** The bytes of the request. @example requestBytes('W\\\\r') // [0x57, 0x0d] */
export function requestBytes(request: string): Uint8Array {
  return new TextEncoder().encode(request.replaceAll('\\r', '\r').replaceAll('\\n', '\n'));
}

function objectIn(stored: string | null): Record<string, unknown> {
  if (stored === null) return {};
  try {
    const found: unknown = JSON.parse(stored);
    return isObject(found) ? found : {};
  } catch {
    return {}; // written by another program: defaults
  }
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;
const isCount = (value: unknown): value is number => Number.isInteger(value) && (value as number) >= 0;

function isForm(value: unknown): value is ScaleForm {
  if (!isObject(value) || !Array.isArray(value.words)) return false;
  const { number, of, words, unit, decimals, part } = value;
  const partIs = isObject(part) && [part.from, part.to, part.length].every(isCount);
  return (
    isCount(number) && isCount(of) && words.every((word) => typeof word === 'string') &&
    (unit === null || ['lb', 'oz', 'kg', 'g'].includes(unit as string)) &&
    (decimals === null || (isCount(decimals) && decimals <= 4)) && (part === null || partIs)
  ); // prettier-ignore
}

const isPort = (value: unknown): value is PortInfo =>
  isObject(value) && [value.usbVendorId, value.usbProductId].every((id) => id === undefined || isCount(id));
