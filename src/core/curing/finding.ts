/** What a check found, by code. The window words it; the desk refuses to start a batch that has a `stop`. */

/** `stop` forbids starting the batch as it is; `warn` asks for a second look; `note` only tells. */
export type FindingWeight = 'stop' | 'warn' | 'note';

export interface Finding<Code extends string = string> {
  readonly code: Code;
  readonly weight: FindingWeight;
  /** Parameters of the sentence. */
  readonly with: Readonly<Record<string, string | number>>;
  /** Code of the limit or rule behind it, which carries the source. */
  readonly rule?: string;
}

export function hasStop(findings: readonly Finding[]): boolean {
  return findings.some(({ weight }) => weight === 'stop');
}

/** Relative rounding by which a sum may exceed a limit: 0.25 oz of 100 lb must not fail by the last bit. */
const ROUNDING = 1e-9;

/** Whether `value` exceeds `limit` by more than rounding: a limit is a ceiling, compared with ≤. */
export function exceeds(value: number, limit: number): boolean {
  return value > limit * (1 + ROUNDING) + Number.EPSILON;
}
