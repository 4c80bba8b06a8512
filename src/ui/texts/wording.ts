import type { Problem } from '../../bridge/contract.ts';
import type { Format } from './format.ts';

/** What the desk sends along with a code. */
export type With = NonNullable<Problem['with']>;
/** Turns the parameters of one code into its sentence. */
export type Wording = (parameters: With, format: Format) => string;

/** A mass among the parameters, in the shop's unit. */
export function massIn(parameters: With, key: string, format: Format): string {
  return format.mass(Number(parameters[key]));
}

/** An amount of money among the parameters, in their `currency`; where they name none, in the shop's. */
export function moneyIn(parameters: With, key: string, format: Format): string {
  const { currency } = parameters;
  return format.money(Number(parameters[key]), typeof currency === 'string' ? currency : undefined);
}
