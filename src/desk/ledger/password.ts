/**
 * The password of the shop's own login: sealed by the system's key store where there is one. A book that moves to another computer
 * leaves it behind.
 */
import type { Session } from '../session/session.ts';
import { secretFile } from './secret-file.ts';

/** Without a key store it stands there as it is. */
const plainFile = secretFile('ledger password');
const sealedFile = secretFile('ledger password sealed');

/** What was opened last: the key store may ask its person each time. Null: it would not open. */
const opened = new WeakMap<Session, { sealed: string; password: string | null }>();
/** Openings in which a password of a time without a key store was tried to be sealed. */
const takenOver = new WeakSet<Session>();

/** The kept password, or null. */
export async function keptPassword(session: Session): Promise<string | null> {
  const { path } = session.book;
  const sealed = sealedFile.kept(path);
  if (sealed !== null) {
    const known = opened.get(session);
    if (known?.sealed === sealed) return known.password;
    const password = (await session.host.vault?.unseal(sealed)) ?? null;
    opened.set(session, { sealed, password });
    return password;
  }
  const plain = plainFile.kept(path);
  if (plain !== null && session.host.vault && !takenOver.has(session)) {
    takenOver.add(session);
    await keepPassword(session, plain);
  }
  return plain;
}

/** Whether there is one, as far as is known without asking the key store. */
export function hasPassword(session: Session): boolean {
  const { path } = session.book;
  const sealed = sealedFile.kept(path);
  if (sealed === null) return plainFile.kept(path) !== null;
  const known = opened.get(session);
  return known?.sealed !== sealed || known.password !== null;
}

export async function keepPassword(session: Session, password: string): Promise<void> {
  const { path } = session.book;
  const sealed = (await session.host.vault?.seal(password)) ?? null;
  if (sealed === null) {
    plainFile.keep(path, password);
    sealedFile.forget(path);
    return;
  }
  sealedFile.keep(path, sealed);
  plainFile.forget(path);
  opened.set(session, { sealed, password });
}

export function forgetPassword(session: Session): void {
  plainFile.forget(session.book.path);
  sealedFile.forget(session.book.path);
  opened.delete(session);
}
