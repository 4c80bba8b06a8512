/** The login that reads all shops, where the shop's own may not: in a file beside the book that only this account can read. */
import * as v from 'valibot';
import { secretFile } from './secret-file.ts';

const file = secretFile('ledger reader');
const stored = v.object({ user: v.string(), password: v.string() });
export type ReaderLogin = v.InferOutput<typeof stored>;

export function keptReader(bookPath: string): ReaderLogin | null {
  const kept = file.kept(bookPath);
  return kept === null ? null : v.parse(stored, JSON.parse(kept));
}

export function keepReader(bookPath: string, { user, password }: ReaderLogin): void {
  file.keep(bookPath, JSON.stringify({ user, password }));
}

export const forgetReader = file.forget;
