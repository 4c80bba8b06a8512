import { parseMoney } from '../../core/values/money.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import { ProblemError } from '../contract/problem.ts';

/**
 * Minor units of an amount typed into a field of its own, 0 or more.
 * @throws ValidationError `money.*` and ProblemError `money.negative`, naming that field
 * @example typedMoney('$22.50', 'USD', 'wage') // 2250
 */
export function typedMoney(text: string, currency: string, field: string): number {
  const minor = readMoney(text, currency, field);
  if (minor < 0) throw new ProblemError('invalid', 'money.negative', { field });
  return minor;
}

function readMoney(text: string, currency: string, field: string): number {
  try {
    return parseMoney(text, currency);
  } catch (error) {
    throw error instanceof ValidationError
      ? new ValidationError(error.code, field, { ...error.with })
      : error;
  }
}
