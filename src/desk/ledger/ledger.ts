/** The shop's ledger: where it is, whether it works, and the feed. Only the shop's own window makes these calls. */
import * as v from 'valibot';
import { identityOf } from '../../book/file/book-identity.ts';
import { branchAt, mayGoOn } from '../../ledger/feed/standing.ts';
import { checkServer, checkVersion } from '../../ledger/server/check.ts';
import { connect } from '../../ledger/server/connect.ts';
import { LedgerError } from '../../ledger/server/ledger-error.ts';
import { isOutdated, prepare as prepareServer } from '../../ledger/server/prepare.ts';
import type { Server } from '../../ledger/server/server.ts';
import type { LedgerTried } from '../contract/ledger.ts';
import { ProblemError } from '../contract/problem.ts';
import { by } from '../input/input.ts';
import { isLongBook } from '../session/make-backup.ts';
import { host, read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { endFeed, ledgerView } from './feeding.ts';
import { forgetPassword, hasPassword, keepPassword, keptPassword } from './password.ts';
import { forgetReader } from './reader-login.ts';
import { ledgerAddress, ledgerSettings, putLedger, refusePlain, serverPassword } from './settings.ts';

/** Omitted: the kept one. */
const access = { ...ledgerAddress.entries, password: v.optional(serverPassword) };
type Access = v.InferOutput<v.ObjectSchema<typeof access, undefined>>;

export const get = read(v.object({}), ledgerView);

/** Tries an address: connects, and checks that this book can be fed there. Nothing is written. */
export const tryIt = read(v.object(access), (session, input) =>
  tried(session, input, async (server) => {
    await checkServer(server);
    const { db, feed } = session.book;
    const branch = ledgerSettings(session.book)?.branch ?? 1;
    const found = feed.isOn() && (await branchAt(server, { book: identityOf(db) ?? '', branch }));
    // Another opening of the book may have taken its place meanwhile.
    if (found && db.open) mayGoOn(db, found);
    return (await isOutdated(server)) ? { outdated: true } : {};
  }),
);

/** Prepares a database, by the login of its owner, which is not kept. The book stays as it is. */
export const prepare = read(v.object(access), (session, input) =>
  tried(session, input, async (server) => {
    await checkVersion(server);
    await prepareServer(server);
  }),
);

/** Keeps the password for this computer, and nowhere in the book. */
export const storePassword = host(v.object({ password: serverPassword }), async (session, input) => {
  await keepPassword(session, input.password);
  return {};
});

/**
 * Begins to feed the book, or goes on with other settings. It does not try them: the feed itself says what is wrong.
 * @throws ProblemError `ledger.password` without a kept one, `ledger.tls` without encryption to another computer
 */
export const turnOn = write(
  v.object({ ...ledgerAddress.entries, personal: v.boolean(), by }),
  (session, { by: initials, personal, ...address }) => {
    if (!hasPassword(session)) throw noPassword();
    refusePlain(address);
    const before = ledgerSettings(session.book);
    const goesOn = session.book.feed.isOn();
    // A log that begins anew is another continuation of the book.
    const branch = before ? before.branch + (goesOn ? 0 : 1) : 1;
    const since = session.now();
    putLedger(session, { ...address, personal, on: true, branch, since }, initials);
    if (!goesOn) session.book.feed.begin();
    // What was sent before was sent with details, or without.
    else if (before && before.personal !== personal) session.book.feed.repeat();
    return { branch };
  },
  { long: { when: isLongBook } },
);

/** Ends the feed. What the ledger has, it keeps. */
export const turnOff = write(v.object({ by }), (session, input) => {
  const settings = ledgerSettings(session.book);
  if (!settings) return {};
  endFeed(session);
  forgetPassword(session);
  forgetReader(session.book.path);
  putLedger(session, { ...settings, on: false }, input.by);
  session.book.feed.end();
  return {};
});

/**
 * Goes on with this book as a new branch, which is sent whole; what the ledger had of it stays there as an old branch. Where
 * another computer has begun that branch meanwhile, the feed stops again, and the next one is free. Nothing happens without a ledger.
 */
export const newBranch = write(
  v.object({ by }),
  (session, input) => {
    const settings = ledgerSettings(session.book);
    if (!settings?.on) return { branch: null };
    const branch = settings.branch + 1;
    putLedger(session, { ...settings, branch }, input.by);
    session.book.feed.begin();
    return { branch };
  },
  { long: { when: isLongBook } },
);

const noPassword = (): ProblemError => new ProblemError('invalid', 'ledger.password', { field: 'password' });

async function tried(
  session: Session,
  input: Access,
  work: (server: Server) => Promise<Pick<LedgerTried, 'outdated'> | void>,
): Promise<LedgerTried> {
  const { password: given, ...address } = input;
  const password = given ?? (await keptPassword(session));
  if (password === null) throw noPassword();
  refusePlain(address);
  let server: Server | undefined;
  try {
    server = await connect(address, password);
    return { wrong: null, ...(await work(server)) };
  } catch (error) {
    if (error instanceof LedgerError) return { wrong: error.code };
    throw error;
  } finally {
    await server?.end().catch(() => undefined); // the answer is known already
  }
}
