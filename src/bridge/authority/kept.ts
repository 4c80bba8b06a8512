/**
 * The file that keeps a shop's authority beside its book, readable by its owner only. Backups copy the book and not
 * this file, so a stolen backup holds no key.
 */
import { createHash } from 'node:crypto';
import { chmodSync, readFileSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import * as v from 'valibot';
import { ProblemError } from '../../desk/contract/problem.ts';

const PRIVATE = 0o600;

const pem = v.pipe(v.string(), v.startsWith('-----BEGIN '));
const namesSchema = v.object({ host: v.string(), addresses: v.array(v.string()) });
const keptSchema = v.object({
  version: v.literal(1),
  /** Where it was made: book and computer. */
  place: v.string(),
  authority: v.object({ root: pem, signer: pem, signerKey: pem }),
  leaf: v.object({ certificate: pem, key: pem }),
  /** What the leaf names. */
  names: namesSchema,
});

export type Kept = v.InferOutput<typeof keptSchema>;

/** Example: `keptPath('/home/ann/shop.gambrel')` is `/home/ann/shop stations.json`. */
export function keptPath(bookPath: string): string {
  return `${bookPath.replace(/\.gambrel$/, '')} stations.json`;
}

/**
 * Reads the file; null if there is none.
 * @throws ProblemError `line.keys-damaged` if it is not one of ours
 */
export function readKept(path: string): Kept | null {
  let text: string;
  try {
    if (process.platform !== 'win32') chmodSync(path, PRIVATE);
    text = readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
  const kept = v.safeParse(keptSchema, parsed(text));
  if (!kept.success) throw new ProblemError('broken', 'line.keys-damaged', { with: { path } });
  return kept.output;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null; // refused by the schema
  }
}

/** Replaces the file in one step, flushed to the disk. */
export function writeKept(path: string, kept: Kept): void {
  const part = `${path}.part`;
  rmSync(part, { force: true }); // one left by a crash may have other permissions
  writeFileSync(part, JSON.stringify(kept), { mode: PRIVATE, flag: 'wx', flush: true });
  renameSync(part, path);
}

/** A digest of book and computer: a book that was moved or copied gets an authority of its own. */
export function placeOf(bookPath: string): string {
  return createHash('sha256')
    .update(`${realpathSync(bookPath)}\n${computer()}`)
    .digest('hex');
}

/** Identity of the computer where the system has a stable one (man 5 machine-id); a Mac's name follows its network. */
function computer(): string {
  if (process.platform === 'win32') return process.env['COMPUTERNAME'] ?? '';
  if (process.platform !== 'linux') return '';
  try {
    return readFileSync('/etc/machine-id', 'utf8').trim();
  } catch {
    return ''; // not every Linux has one
  }
}
