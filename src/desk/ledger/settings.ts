import { isIP } from 'node:net';
import * as v from 'valibot';
import type { Book } from '../../book/book.ts';
import type { LedgerSettings } from '../contract/ledger.ts';
import { hasControl, needed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { readSetting } from '../session/settings.ts';

/** Key of the stored settings. */
const LEDGER = 'ledger';

/** A few certificates of usual length. */
const MAX_PEM = 20_000;

const port = v.pipe(
  v.number('ledger.port'),
  v.integer('ledger.port'),
  v.minValue(1, 'ledger.port'),
  v.maxValue(65535, 'ledger.port'),
);

/** Longer ones than any server lets be set. */
export const serverPassword = v.pipe(
  v.string('ledger.password'),
  v.minLength(1, 'ledger.password'),
  v.maxLength(1000, 'text.too-long'),
  v.check((typed) => !hasControl(typed), 'text.control'),
);

/** Where a ledger is. Without encryption a password and every row would be readable on the way, so it stays on this computer. */
export const ledgerAddress = v.object({
  host: needed(253),
  port,
  database: needed(63),
  user: needed(63),
  tls: v.picklist(['verified', 'none'], 'input.invalid'),
  ca: v.nullable(
    v.pipe(
      v.string('ledger.ca'),
      v.maxLength(MAX_PEM, 'ledger.ca'),
      v.regex(/^\s*-----BEGIN CERTIFICATE-----[\s\S]+-----END CERTIFICATE-----\s*$/, 'ledger.ca'),
    ),
  ),
});

const stored = v.object({
  ...ledgerAddress.entries,
  on: v.boolean(),
  personal: v.boolean(),
  branch: v.pipe(v.number(), v.integer(), v.minValue(1)),
  since: v.string(),
});

/** Null until a ledger was set up. */
export function ledgerSettings(book: Book): LedgerSettings | null {
  return readSetting(book, LEDGER, stored) ?? null;
}

/** @throws ProblemError `ledger.tls` without encryption to another computer */
export function refusePlain({ host, tls }: Pick<LedgerSettings, 'host' | 'tls'>): void {
  if (tls === 'none' && !isHere(host)) throw new ProblemError('invalid', 'ledger.tls', { field: 'tls' });
}

const isHere = (host: string): boolean =>
  host === 'localhost' || host === '::1' || (isIP(host) === 4 && host.startsWith('127.'));

/** Stores settings, and says so in the audit. */
export function putLedger(session: Session, after: LedgerSettings, initials: string): void {
  const before = ledgerSettings(session.book);
  session.book.settings.put(LEDGER, after);
  session.book.audit.note({
    record: 'setting', recordId: LEDGER, act: 'change', before, after, at: session.now(), by: initials,
  }); // prettier-ignore
}
