/**
 * A shop that is already set up, copied for each test that wants a fresh one. To copy a file takes a tenth of the time of
 * making a book and setting it up.
 */
import { randomUUID } from 'node:crypto';
import { copyFileSync, existsSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { inject } from 'vitest';

/** Makes a shop's book at `path` and closes it. */
type MakeShop = (path: string) => Promise<void>;

/** Copies the shop named `name` to `path`, as a book of its own. The first that asks for it in a test run makes it. */
export async function copyOfShop(name: string, path: string, make: MakeShop): Promise<void> {
  const template = join(inject('runFolder'), `${name}.gambrel`);
  if (!existsSync(template)) {
    const draft = `${template}-${randomUUID()}`;
    await make(draft);
    renameSync(draft, template);
  }
  copyFileSync(template, path);
  drawIdentity(path);
}

/** Two books of one identity would take each other's backups for their own. */
function drawIdentity(path: string): void {
  const db = new Database(path);
  const drawn = JSON.stringify(randomUUID().replaceAll('-', ''));
  db.prepare("UPDATE setting SET value = ? WHERE key = 'bookIdentity'").run(drawn);
  db.pragma('wal_checkpoint(TRUNCATE)');
  db.close();
}
