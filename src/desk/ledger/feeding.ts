/** The feed of each open book: started and ended as its settings say, never in the way of a save. */
import { identityOf } from '../../book/file/book-identity.ts';
import type { FeedState } from '../../ledger/feed/feeder.ts';
import type { SharedLesson } from '../../ledger/feed/lessons.ts';
import { startThread, type FeederThread } from '../../ledger/feed/thread.ts';
import type { LedgerSettings, LedgerState, LedgerView } from '../contract/ledger.ts';
import { knownWords } from '../records/known-words.ts';
import type { Session } from '../session/session.ts';
import { hasPassword, keptPassword } from './password.ts';
import { noteSent, notedSent } from './sent-note.ts';
import { ledgerSettings } from './settings.ts';

interface Feeding {
  thread: FeederThread;
  /** What it was started with: with other settings it is started anew. */
  key: string;
  state: FeedState;
  branch: number;
  /** The last change that is known to be sent. */
  sent: number;
  /** Receives what other shops learned. */
  onLessons: ((lessons: SharedLesson[]) => void) | null;
}

const feedings = new WeakMap<Session, Feeding>();
/** Sent changes are kept so long, for a server that is set back: our choice, no source. */
const KEEP_DAYS = 90;

export interface FeedHome {
  /** The feeder's script: `worker.ts` of the ledger, or its build. */
  program: URL;
  /** Tells the windows that the state changed. */
  announce: () => void;
  onBroken: (error: unknown) => void;
}

/** Openings whose password is being asked for. */
const asking = new WeakSet<Session>();

/** Starts, restarts or ends the feed of the open book, as its settings say now. */
export async function followLedger(session: Session, home: FeedHome): Promise<void> {
  if (asking.has(session)) return;
  asking.add(session);
  try {
    const isOn = ledgerSettings(session.book)?.on === true && !session.demo;
    const password = isOn ? await keptPassword(session) : null;
    // Meanwhile it may have been switched off, or closed.
    if (session.book.db.open) follow(session, password, home);
  } finally {
    asking.delete(session);
  }
}

function follow(session: Session, password: string | null, home: FeedHome): void {
  const settings = ledgerSettings(session.book);
  const runs = settings?.on === true && password !== null && hasPassword(session) && session.book.feed.isOn();
  const key = runs ? JSON.stringify([settings, password]) : '';
  const running = feedings.get(session);
  if (running && running.key !== key) endFeed(session);
  if (!runs || running?.key === key) return;
  start(session, settings, password, key, home);
}

function start(
  session: Session,
  settings: LedgerSettings,
  password: string,
  key: string,
  { program, announce, onBroken }: FeedHome,
): void {
  const { book } = session;
  const { host, port, database, user, tls, ca, personal, branch } = settings;
  const thread = startThread(
    program,
    {
      bookPath: book.path,
      branch: { book: identityOf(book.db) ?? '', branch },
      name: session.settings.shopName,
      privacy: { personal, known: knownWords(session) },
      address: { host, port, database, user, tls, ca },
      password,
    },
    {
      onState(state) {
        const feeding = feedings.get(session);
        if (feeding?.thread !== thread) return;
        const isNew = feeding.state.kind !== state.kind;
        feeding.state = state;
        if ('sent' in state) feeding.sent = state.sent.seq;
        if (isNew && state.kind === 'even') noteSent(book.path, branch, feeding.sent);
        if (isNew) announce();
      },
      onLessons: (lessons) => feedings.get(session)?.onLessons?.(lessons),
      onBroken,
    },
  );
  const sent = notedSent(book.path, branch);
  feedings.set(session, { thread, key, state: { kind: 'connecting' }, branch, sent, onLessons: null });
  // A book is a single file only once nobody reads it.
  book.onClosing(() => endFeed(session));
}

/** Ends the feed; the book is not read any more when this returns. */
export function endFeed(session: Session): void {
  const feeding = feedings.get(session);
  if (!feeding) return;
  feeding.thread.stop();
  feedings.delete(session);
  noteSent(session.book.path, feeding.branch, feeding.sent);
}

/** After a write: what was logged is sent at once. */
export function wakeFeed(session: Session): void {
  feedings.get(session)?.thread.wake();
}

/** Whether everything is in the ledger. */
export const isEven = (session: Session): boolean => feedings.get(session)?.state.kind === 'even';

/** Tells the ledger what this shop learned, if anything, and asks for what its other shops did. */
export function exchangeWithLedger(
  session: Session,
  mine: SharedLesson | null,
  onLessons: (lessons: SharedLesson[]) => void,
): void {
  const feeding = feedings.get(session);
  if (!feeding) return;
  feeding.onLessons = onLessons;
  feeding.thread.exchange(mine);
}

/** Removes what was sent long ago, some at a time. */
export function pruneFeed(session: Session, now: Date): void {
  const sent = feedings.get(session)?.sent ?? 0;
  if (sent === 0) return;
  const before = Math.floor(now.getTime() / 1000) - KEEP_DAYS * 86_400;
  session.book.change(() => session.book.feed.prune(sent, before));
}

export function ledgerView(session: Session): LedgerView {
  const { book } = session;
  const feeding = feedings.get(session);
  const settings = ledgerSettings(book);
  const sent = feeding?.sent ?? (settings ? notedSent(book.path, settings.branch) : 0);
  return {
    settings,
    hasPassword: hasPassword(session),
    state: feeding ? shown(feeding.state) : { kind: 'off' },
    backlog: book.feed.isOn() ? book.feed.backlog(sent) : { changes: 0, since: null },
  };
}

function shown(state: FeedState): LedgerState {
  switch (state.kind) {
    case 'sending':
      return { kind: 'sending' };
    case 'even':
      return { kind: 'even', at: state.at };
    default:
      return state;
  }
}
