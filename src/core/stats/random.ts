/**
 * A seeded pseudo-random number generator: the same seed gives the same numbers on every machine. Used for simulation,
 * never for secrets.
 */
import { ValidationError } from '../values/validation-error.ts';

/** Of the method's quick test (Marsaglia & Tsang, section 4). */
const SQUEEZE = 0.0331;

export interface RandomGenerator {
  /** Uniform in (0, 1), ends never hit, 32 bits fine. */
  uniform(): number;
  /** Normal with mean 0 and standard deviation 1. */
  normal(): number;
  /** Gamma with the given shape (above 0) and scale 1. */
  gamma(shape: number): number;
  /** Student's t with the given degrees of freedom (above 0). */
  studentT(degrees: number): number;
}

/**
 * Creates a generator from a whole-number seed.
 * Uniform: sfc32, Chris Doty-Humphrey's small fast counting generator (PractRand), its first 15 outputs discarded
 * to mix the seed. Normal: Marsaglia's polar method (Marsaglia & Bray, SIAM Review 6:260, 1964). Gamma: Marsaglia
 * & Tsang, ACM TOMS 26:363, 2000. Student's t: a normal over the root of a scaled chi-square. Citations from memory.
 * @throws ValidationError `random.seed` unless the seed is a safe integer; `random.shape` for a shape not above 0
 * @example seededRandom(7).uniform() === seededRandom(7).uniform() // true
 */
export function seededRandom(seed: number): RandomGenerator {
  if (!Number.isSafeInteger(seed)) throw new ValidationError('random.seed', 'seed');
  const next = sfc32(seed);
  const uniform = (): number => (next() + 0.5) / 2 ** 32;
  let spare: number | null = null;

  function normal(): number {
    if (spare !== null) {
      const cached = spare;
      spare = null;
      return cached;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const s = u * u + v * v;
      if (s >= 1 || s === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(s)) / s);
      spare = v * factor;
      return u * factor;
    }
  }

  function gamma(shape: number): number {
    if (!(shape > 0 && Number.isFinite(shape))) throw new ValidationError('random.shape', 'shape');
    // Below 1 the method needs a lift: gamma(a) = gamma(a + 1) * U^(1/a).
    if (shape < 1) return gamma(shape + 1) * uniform() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const root = 1 + c * x;
      const v = root * root * root;
      if (v <= 0) continue;
      const u = uniform();
      const square = x * x;
      // The first condition implies the second, and holds for all but a few: it spares two logarithms.
      if (u < 1 - SQUEEZE * square * square) return d * v;
      if (Math.log(u) < 0.5 * square + d - d * v + d * Math.log(v)) return d * v;
    }
  }

  return {
    uniform,
    normal,
    gamma,
    studentT: (degrees) => normal() / Math.sqrt((2 * gamma(degrees / 2)) / degrees),
  };
}

/** Whole numbers from 0 to 2^32 - 1. */
function sfc32(seed: number): () => number {
  let a = seed | 0;
  let b = Math.floor(seed / 2 ** 32) | 0;
  let c = 0;
  let counter = 1;
  const next = (): number => {
    const out = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + out;
    return out >>> 0;
  };
  for (let i = 0; i < 15; i++) next();
  return next;
}
