import type { DownloadTimes } from './download.mjs';

export interface Terminal {
  isTTY?: boolean;
  write(text: string): unknown;
}
export function fetchRuntime(
  root: string,
  node: string,
  out: Terminal,
  times?: DownloadTimes,
): Promise<string>;
