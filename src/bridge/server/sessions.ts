/**
 * Codes that let one window in, and the sessions that windows got for them. Both are 256 random bits and live in memory
 * only; all end with the server.
 */
import { createHash, randomBytes } from 'node:crypto';

/** How long a code lets somebody in, ms: a browser that has to be started first takes a few seconds. */
const CODE_LASTS = 60_000;
/** Codes that are good at once; the oldest lapses first. */
const MOST_CODES = 8;
/** Sessions kept at once; the one that was used longest ago lapses first. More windows than any shop opens. */
const MOST_SESSIONS = 64;
/** Wrong codes within `CODE_LASTS` after which more of them are only turned away. */
const MOST_WRONG = 10;

export interface Sessions {
  /** A new code, good once and for a minute. */
  newCode(): string;
  /**
   * Whether a code is good now; it stays so. Nobody is locked out by somebody else's wrong codes: a right one cannot be
   * guessed, and locking would let anybody on this computer keep the shop out.
   */
  isGood(code: unknown): code is string;
  /** A session for a good code, which is used up; null for any other. */
  admit(code: unknown): string | null;
  /** Notes a wrong code. True when there were too many of late. */
  wrong(): boolean;
  knows(session: string | null): boolean;
}

/** @param clock milliseconds that never go back */
export function openSessions(clock: () => number = () => performance.now()): Sessions {
  // Hashes are looked up instead of what was sent, so that the time of a look-up tells nothing about a secret.
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
      dropOldest(codes, MOST_CODES);
      return code;
    },
    admit(code) {
      if (!isGood(code)) return null;
      codes.delete(hashOf(code));
      const session = token();
      sessions.add(hashOf(session));
      dropOldest(sessions, MOST_SESSIONS);
      return session;
    },
    wrong() {
      const now = clock();
      wrong = wrong.filter((at) => now - at < CODE_LASTS).slice(-MOST_WRONG);
      wrong.push(now);
      return wrong.length > MOST_WRONG;
    },
    knows(session) {
      if (session === null) return false;
      const hash = hashOf(session);
      if (!sessions.delete(hash)) return false;
      sessions.add(hash); // now the one that was used last
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
