/**
 * One-time codes that admit a window, and the sessions issued for them. Both are 256 random bits and exist in
 * memory only; all end with the server.
 */
import { createHash, randomBytes } from 'node:crypto';

/** Lifetime of a code, ms: a browser that has to start first takes a few seconds. */
const CODE_LASTS = 60_000;
/** Valid codes at a time; the oldest expires first. */
const MAX_CODES = 8;
/** Sessions at a time; the least recently used expires first. More windows than any shop opens. */
const MAX_SESSIONS = 64;
/** Wrong codes within `CODE_LASTS` after which further ones are refused without logging. */
const MAX_WRONG = 10;

export interface Sessions {
  /** A new code, valid once and for a minute. */
  newCode(): string;
  /**
   * Whether a code is valid; it stays so. Wrong codes of others never lock anyone out: a right one cannot be
   * guessed, and a lock would let anybody on this computer deny service.
   */
  isGood(code: unknown): code is string;
  /** A session for a valid code, which is consumed; null for any other. */
  admit(code: unknown): string | null;
  /** Counts a wrong code. True when there were too many recently. */
  wrong(): boolean;
  knows(session: string | null): boolean;
}

/** @param clock a monotonic clock in milliseconds */
export function openSessions(clock: () => number = () => performance.now()): Sessions {
  // Hashes are looked up instead of the secrets, so that timing reveals nothing about them.
  const codes = new Map<string, number>();
  const sessions = new Set<string>();
  let wrong: number[] = [];

  function isGood(code: unknown): code is string {
    if (typeof code !== 'string') return false;
    const until = codes.get(hashOf(code));
    return until !== undefined && clock() <= until;
  }

  return {
    isGood,
    newCode() {
      const code = token();
      codes.set(hashOf(code), clock() + CODE_LASTS);
      dropOldest(codes, MAX_CODES);
      return code;
    },
    admit(code) {
      if (!isGood(code)) return null;
      codes.delete(hashOf(code));
      const session = token();
      sessions.add(hashOf(session));
      dropOldest(sessions, MAX_SESSIONS);
      return session;
    },
    wrong() {
      const now = clock();
      wrong = wrong.filter((at) => now - at < CODE_LASTS).slice(-MAX_WRONG);
      wrong.push(now);
      return wrong.length > MAX_WRONG;
    },
    knows(session) {
      if (session === null) return false;
      const hash = hashOf(session);
      if (!sessions.delete(hash)) return false;
      sessions.add(hash); // now the most recently used
      return true;
    },
  };
}

function dropOldest(
  all: { size: number; keys(): Iterator<string>; delete(one: string): boolean },
  most: number,
) {
  const oldest = all.keys().next();
  if (all.size > most && !oldest.done) all.delete(oldest.value);
}

function token(): string {
  return randomBytes(32).toString('base64url');
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('base64');
}
