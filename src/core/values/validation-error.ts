/** The core's only error for bad input: a code and its parameters, never a sentence. */
export class ValidationError extends Error {
  readonly code: string;
  /** The input field concerned, e.g. `sources[2].fat`. */
  readonly field: string | undefined;
  /** Parameters for the window's message. */
  readonly with: Readonly<Record<string, string | number>>;

  constructor(code: string, field?: string, parameters: Record<string, string | number> = {}) {
    super(field ? `${code} (${field})` : code);
    this.name = 'ValidationError';
    this.code = code;
    this.field = field;
    this.with = parameters;
  }
}

/** Returns `value`. @throws ValidationError `number.not-finite` */
export function requireFinite(value: number, field: string): number {
  if (!Number.isFinite(value)) throw new ValidationError('number.not-finite', field);
  return value;
}

/** @throws ValidationError `number.not-finite`, `share.out-of-range` (below 0) */
export function requireNonNegative(value: number, field: string): void {
  requireFinite(value, field);
  if (value < 0) throw new ValidationError('share.out-of-range', field, { share: value });
}

/** @throws ValidationError `number.not-finite`, `share.out-of-range` (below 0 or above 1) */
export function requireFraction(value: number, field: string): void {
  requireNonNegative(value, field);
  if (value > 1) throw new ValidationError('share.out-of-range', field, { share: value });
}
