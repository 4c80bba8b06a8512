import type { Terminal } from './fetch-runtime.mjs';

export function megabytes(bytes: number): string;
export function showProgress(out: Terminal): {
  came(bytes: number, whole: number): void;
  note(sentence: string): void;
  end(): void;
};
