/** What a wrong input is answered with everywhere in the core: a code and its parameters, never a sentence. */
export class ValidationError extends Error {
  readonly code: string;
  /** The input field concerned, e.g. `sources[2].fat`. */
  readonly field: string | undefined;
  /** Parameters that the window needs to word the problem. */
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
