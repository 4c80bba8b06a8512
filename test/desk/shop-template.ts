/**
 * A shop that is already set up, copied for each test that wants a fresh one. To copy a file takes a tenth of the time of
 * making a book and setting it up.
 */
import { randomUUID } from 'node:crypto';
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { inject } from 'vitest';
import { identityOf } from '../../src/book/file/book-identity.ts';

/** Makes a shop's book at `path` and closes it. */
type MakeShop = (path: string) => Promise<void>;

interface Template {
  bytes: Buffer;
  /** Where the digits of the book's identity stand. */
  identityAt: number;
}

const templates = new Map<string, Template>();

/** Copies the shop named `name` to `path`, as a book of its own. The first that asks for it in a test run makes it. */
export async function copyOfShop(name: string, path: string, make: MakeShop): Promise<void> {
  const { bytes, identityAt } = templates.get(name) ?? (await templateOf(name, make));
  // Two books of one identity would take each other's backups for their own.
  bytes.write(randomUUID().replaceAll('-', ''), identityAt);
  writeFileSync(path, bytes);
}

async function templateOf(name: string, make: MakeShop): Promise<Template> {
  const file = join(inject('runFolder'), `${name}.gambrel`);
  if (!existsSync(file)) {
    const draft = `${file}-${randomUUID()}`;
    await make(draft);
    renameSync(draft, file);
  }
  // From the same bytes: another worker may put its own draft in the file's place at any time.
  const bytes = readFileSync(file);
  const own = `${file}-${randomUUID()}`;
  writeFileSync(own, bytes);
  const db = new Database(own, { readonly: true });
  const identity = identityOf(db) ?? '';
  db.close();
  const identityAt = bytes.indexOf(identity);
  if (identity === '' || identityAt < 0 || identityAt !== bytes.lastIndexOf(identity))
    throw new Error('The identity of a fresh book stands in its file once.');
  templates.set(name, { bytes, identityAt });
  return { bytes, identityAt };
}
