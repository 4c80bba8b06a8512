/** The key in the printed address, and the passes that windows got for it. */
import { randomBytes, timingSafeEqual } from 'node:crypto';

/** Passes kept at once; the oldest lapses first. More windows than any shop opens. */
const MOST_PASSES = 64;

export interface Sessions {
  /** The key of the printed address. */
  key: string;
  /** A pass for the right key, else null. The key may be shown again: the address is what the person has. */
  admit(key: unknown): string | null;
  knows(pass: string | null): boolean;
}

/** Opens the door book of one server. Keys and passes are 256 random bits and live in memory only. */
export function openSessions(): Sessions {
  const key = token();
  const passes = new Set<string>();
  return {
    key,
    admit(shown) {
      if (typeof shown !== 'string' || !same(shown, key)) return null;
      const pass = token();
      passes.add(pass);
      const [oldest] = passes;
      if (passes.size > MOST_PASSES && oldest) passes.delete(oldest);
      return pass;
    },
    knows: (pass) => pass !== null && passes.has(pass),
  };
}

function token(): string {
  return randomBytes(32).toString('base64url');
}

function same(shown: string, key: string): boolean {
  const left = Buffer.from(shown);
  const right = Buffer.from(key);
  return left.length === right.length && timingSafeEqual(left, right);
}
