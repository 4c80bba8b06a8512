/** Who is signed in at which station. In memory: a desk that starts again asks everybody anew. */
import { randomBytes } from 'node:crypto';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { isPin } from './pin.ts';

/** Wrong tries of one person at one station before a wait, and the first wait; each further wrong try doubles it. */
const FREE_TRIES = 5;
const FIRST_WAIT_MS = 30_000;
/** 30 s · 2^11 are 17 hours, the longest wait: nobody is shut out for good by a child at a tablet. */
const MOST_DOUBLINGS = 11;
/** A person who does nothing for so long is signed out. Our choice, no source. */
const IDLE_MS = 10 * 60_000;

interface SignedIn {
  stationId: number;
  initials: string;
  lastMs: number;
}

interface Tries {
  wrong: number;
  waitUntil: number;
}

export class People {
  readonly #signedIn = new Map<string, SignedIn>();
  readonly #tries = new Map<string, Tries>();

  /** @throws ProblemError `person.wait` (`seconds`), `person.wrong-pin` (`left`: tries before the next wait) */
  async signIn(session: Session, stationId: number, initials: string, pin: string) {
    const now = Date.parse(session.now());
    // Names that nobody has share one count, so that no list of them grows.
    const known = session.book.pins.get(initials) ? initials : '';
    const key = `${stationId} ${known}`;
    const tries = this.#tries.get(key) ?? { wrong: 0, waitUntil: 0 };
    if (now < tries.waitUntil) {
      const seconds = Math.ceil((tries.waitUntil - now) / 1000);
      throw new ProblemError('refused', 'person.wait', { with: { seconds } });
    }
    // Counted before the slow check: tries at the same time are no more than tries in turn.
    tries.wrong += 1;
    const doublings = tries.wrong - FREE_TRIES;
    if (doublings >= 0) tries.waitUntil = now + FIRST_WAIT_MS * 2 ** Math.min(doublings, MOST_DOUBLINGS);
    this.#tries.set(key, tries);
    if (!(await isPin(session, initials, pin)))
      throw new ProblemError('invalid', 'person.wrong-pin', {
        field: 'pin',
        with: { left: Math.max(0, FREE_TRIES - tries.wrong) },
      });
    this.#tries.delete(key);
    const person = randomBytes(16).toString('base64url');
    this.#signedIn.set(person, { stationId, initials, lastMs: now });
    return { person, initials, idleMs: IDLE_MS };
  }

  signOut(stationId: number, person: string): void {
    if (this.#signedIn.get(person)?.stationId === stationId) this.#signedIn.delete(person);
  }

  /** The initials of who is signed in there, and keeps that going; undefined for nobody. */
  at(session: Session, stationId: number, person: string | undefined): string | undefined {
    const now = Date.parse(session.now());
    for (const [key, { lastMs }] of this.#signedIn) if (now - lastMs > IDLE_MS) this.#signedIn.delete(key);
    const found = person === undefined ? undefined : this.#signedIn.get(person);
    if (!found || found.stationId !== stationId || !session.book.pins.get(found.initials)) return undefined;
    found.lastMs = now;
    return found.initials;
  }
}

const of = new WeakMap<Session, People>();

/** The people of this opening of the book. */
export function peopleOf(session: Session): People {
  let people = of.get(session);
  if (!people) of.set(session, (people = new People()));
  return people;
}
