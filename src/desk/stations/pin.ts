/** PINs of staff, kept as salted hashes. The stations never hold them. */
import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import * as v from 'valibot';
import { ProblemError } from '../contract/problem.ts';
import { by, needed } from '../input/input.ts';
import { host, write } from '../session/procedure.ts';
import { refuseWrongClock } from '../session/clock.ts';
import type { Session } from '../session/session.ts';

/** OWASP Password Storage Cheat Sheet, scrypt: N = 2^14, r = 8, p = 5, one of its equal choices and the one of least memory, 16 MiB. */
const COST = { N: 2 ** 14, r: 8, p: 5 };
const BYTES = 32;

const pin = v.pipe(
  v.string('person.pin'),
  v.maxLength(8, 'person.pin'),
  v.regex(/^[0-9]{4,8}$/, 'person.pin'),
);
export const initials = v.pipe(needed(6), v.toUpperCase());

function hashed(typed: string, salt: string): Promise<Buffer> {
  return new Promise((resolve, reject) =>
    scrypt(typed, Buffer.from(salt, 'base64'), BYTES, COST, (error, hash) =>
      error ? reject(error) : resolve(hash),
    ),
  );
}

/** Gives somebody of the staff a PIN, in place of a former one. @throws ProblemError `person.unknown` */
export const setPin = host(v.object({ initials, pin, by }), async (session, input) => {
  refuseUnknown(session, input.initials);
  const salt = randomBytes(16).toString('base64');
  const hash = (await hashed(input.pin, salt)).toString('base64');
  refuseWrongClock(session);
  session.book.change(() =>
    session.book.pins.add({ initials: input.initials, salt, hash, at: session.now(), by: input.by }),
  );
  return { withPin: session.book.pins.who() };
});

/** @throws ProblemError `person.unknown` */
export const clearPin = write(v.object({ initials, by }), (session, input) => {
  refuseUnknown(session, input.initials);
  if (session.book.pins.get(input.initials))
    session.book.pins.add({ ...input, salt: '', hash: null, at: session.now() });
  return { withPin: session.book.pins.who() };
});

function refuseUnknown(session: Session, wanted: string): void {
  if (!session.book.settings.staff().some((one) => one.initials === wanted))
    throw new ProblemError('missing', 'person.unknown', { field: 'initials', with: { initials: wanted } });
}

/** Whether it is the PIN of these initials. As slow for somebody without one. */
export async function isPin(session: Session, who: string, typed: string): Promise<boolean> {
  const stored = session.book.pins.get(who);
  const hash = await hashed(typed.slice(0, 64), stored?.salt ?? '');
  return stored !== undefined && timingSafeEqual(hash, Buffer.from(stored.hash, 'base64'));
}
