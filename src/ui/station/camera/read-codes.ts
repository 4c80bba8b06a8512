/** Reads a tag's or label's code from the picture of a camera: by the browser's own reader where it has one, else by ours. */

/** What our tags and labels carry (`src/ui/labels/codes`): a ticket in bars or in a square. */
const BROWSER_FORMATS = ['qr_code', 'code_128'] as const;

/** @returns the text of the code that is seen in the frame; null for none */
export type CodeReader = (frame: ImageData) => Promise<string | null>;

/** The part of the browser's reader that is used (W3C Shape Detection). */
interface BrowserReader {
  new (options: { formats: readonly string[] }): {
    detect(frame: ImageData): Promise<readonly { rawValue: string }[]>;
  };
  getSupportedFormats(): Promise<readonly string[]>;
}

/** Whether this device can be asked for a camera at all. */
export const hasCamera = (): boolean =>
  'mediaDevices' in navigator && 'getUserMedia' in navigator.mediaDevices;

export async function codeReader(): Promise<CodeReader> {
  const Reader = (window as { BarcodeDetector?: BrowserReader }).BarcodeDetector;
  const formats = (await Reader?.getSupportedFormats()) ?? [];
  if (!Reader || BROWSER_FORMATS.some((one) => !formats.includes(one))) {
    const { readCode } = await import('./zxing.ts');
    return async (frame) => readCode(frame);
  }
  const reader = new Reader({ formats: BROWSER_FORMATS });
  return async (frame) => (await reader.detect(frame))[0]?.rawValue ?? null;
}
