/**
 * Pairing: the shop shows a code, a device asks with it, both show one number, and the owner allows it. A code gives the right
 * to ask, never more. Nothing of this is stored; it ends with the opening of the book.
 */
import { randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import type {
  AskingDevice,
  AskOutcome,
  StationInfo,
  StationRequest,
  StationsView,
} from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** RFC 8628, section 6.1: 8 of 20 consonants, 34.5 bits, spell no word and need no shift key. */
const LETTERS = 'BCDFGHJKLMNPQRSTVWXZ';
const LENGTH = 8;
/** A code's and a request's life. With ten tries the chance to guess a code is 10 ÷ 20⁸, 4 in 10 billion. */
const LIFE_MS = 5 * 60_000;
const MOST_WRONG = 10;

interface Asked extends StationRequest {
  origin: string;
  until: number;
  outcome: AskOutcome;
}

export class Pairing {
  readonly #now: () => number;
  #code: { letters: string; until: number } | null = null;
  #wrong = 0;
  readonly #asked = new Map<string, Asked>();

  constructor(now: () => number) {
    this.#now = now;
  }

  /** Makes another code; the former one ends. */
  newCode(): void {
    const letters = Array.from({ length: LENGTH }, () => LETTERS[randomInt(LETTERS.length)]).join('');
    this.#code = { letters, until: this.#now() + LIFE_MS };
    this.#wrong = 0;
  }

  /** No device can ask any more, and those that ask are refused. */
  end(): void {
    this.#code = null;
    this.#wrong = 0;
    this.#asked.clear();
  }

  view(): Pick<StationsView, 'code' | 'locked' | 'requests'> {
    this.#forgetOld();
    const code = this.#code && {
      code: this.#code.letters,
      until: new Date(this.#code.until).toISOString(),
      leftMs: this.#code.until - this.#now(),
    };
    const waiting = [...this.#asked.values()].filter(({ outcome }) => outcome.state === 'waiting');
    return {
      code,
      locked: this.#wrong >= MOST_WRONG,
      requests: waiting.map(({ request, number, agent, address, askedAt }) => ({
        request,
        number,
        agent,
        address,
        askedAt,
      })),
    };
  }

  /** @throws ProblemError `pairing.wrong-code`, `pairing.locked` */
  ask(typed: string, device: AskingDevice): { request: string; number: string } {
    this.#forgetOld();
    if (this.#wrong >= MOST_WRONG) throw new ProblemError('refused', 'pairing.locked');
    if (!this.#isCode(typed)) {
      // Counted for the whole desk: addresses on a shop's network are free.
      if (this.#code && ++this.#wrong >= MOST_WRONG) this.#code = null;
      throw new ProblemError('invalid', 'pairing.wrong-code', { field: 'code' });
    }
    this.#code = null;
    const request = randomBytes(16).toString('base64url');
    const number = this.#freeNumber();
    const now = this.#now();
    this.#asked.set(request, {
      request,
      number,
      agent: device.agent,
      address: device.address,
      origin: device.origin,
      askedAt: new Date(now).toISOString(),
      until: now + LIFE_MS,
      outcome: { state: 'waiting' },
    });
    return { request, number };
  }

  /** The waiting request. @throws ProblemError `pairing.over` */
  waiting(request: string): StationRequest & { origin: string } {
    this.#forgetOld();
    const asked = this.#asked.get(request);
    if (asked?.outcome.state !== 'waiting') throw new ProblemError('missing', 'pairing.over');
    return asked;
  }

  allow(request: string, station: StationInfo, secret: string): void {
    const asked = this.#asked.get(request);
    if (asked) asked.outcome = { state: 'allowed', station, secret };
  }

  refuse(request: string): void {
    const asked = this.#asked.get(request);
    if (asked) asked.outcome = { state: 'refused' };
  }

  /** Told again until the station came in: the line may break under the answer, and the station would be one that nobody has. */
  outcome(request: string): AskOutcome {
    this.#forgetOld();
    const asked = this.#asked.get(request);
    if (!asked) return { state: 'over' };
    if (asked.outcome.state === 'refused') this.#asked.delete(request);
    return asked.outcome;
  }

  /** A station has its secret: it is told to nobody any more. */
  cameIn(stationId: number): void {
    for (const [request, { outcome }] of this.#asked)
      if (outcome.state === 'allowed' && outcome.station.id === stationId) this.#asked.delete(request);
  }

  #isCode(typed: string): boolean {
    if (!this.#code || typed.length > 40) return false;
    const letters = Buffer.from(typed.toUpperCase().replace(/[\s-]/g, ''));
    const code = Buffer.from(this.#code.letters);
    return letters.length === code.length && timingSafeEqual(letters, code);
  }

  #freeNumber(): string {
    const taken = new Set([...this.#asked.values()].map(({ number }) => number));
    for (;;) {
      const number = String(randomInt(1000, 10_000));
      if (!taken.has(number)) return number;
    }
  }

  #forgetOld(): void {
    const now = this.#now();
    if (this.#code && this.#code.until <= now) this.#code = null;
    for (const [request, { until }] of this.#asked) if (until <= now) this.#asked.delete(request);
  }
}

const of = new WeakMap<Session, Pairing>();

/** The pairing of this opening of the book. */
export function pairingOf(session: Session): Pairing {
  let pairing = of.get(session);
  if (!pairing) of.set(session, (pairing = new Pairing(() => Date.parse(session.now()))));
  return pairing;
}
