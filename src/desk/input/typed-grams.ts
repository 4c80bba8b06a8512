import { ValidationError } from '../../core/values/validation-error.ts';
import { parseReading, readingGrams } from '../../core/values/reading.ts';
import type { MassUnit } from '../../core/values/units.ts';

/**
 * Grams of a weight typed into a separate field. @throws ValidationError `reading.*`, naming that field
 * @example typedGrams('2 lb', 'kg', 'packageTyped') // 907.18474
 */
export function typedGrams(text: string, unit: MassUnit, field: string): number {
  try {
    return readingGrams(parseReading(text, unit));
  } catch (error) {
    throw error instanceof ValidationError
      ? new ValidationError(error.code, field, { ...error.with })
      : error;
  }
}
