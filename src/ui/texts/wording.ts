import type { Problem } from '../../bridge/contract.ts';
import type { Format } from './format.ts';

/** The parameters of a problem code. */
export type With = NonNullable<Problem['with']>;
/** Renders the parameters of one code as its message. */
export type Wording = (parameters: With, format: Format) => string;

/** A mass parameter in the shop's unit. */
export function massIn(parameters: With, key: string, format: Format): string {
  return format.mass(Number(parameters[key]));
}

/** A money parameter in its `currency`, by default the shop's. */
export function moneyIn(parameters: With, key: string, format: Format): string {
  const { currency } = parameters;
  return format.money(Number(parameters[key]), typeof currency === 'string' ? currency : undefined);
}
