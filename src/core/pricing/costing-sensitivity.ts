import { costOf } from './costing.ts';
import { SERVICE_INPUTS, type Service, type ServiceInput } from './costing-input.ts';
import { ValidationError } from '../values/validation-error.ts';

/** Cost of a finished pound with one input lowered and raised, in minor units. */
export interface Swing {
  readonly input: ServiceInput;
  readonly lowCostPerLb: number;
  readonly highCostPerLb: number;
  /** Distance between the two. */
  readonly swing: number;
}

/** A share of 1 would leave nothing to sell. */
const HIGHEST_SHARE = 0.99;

/**
 * Sensitivity of the cost of a finished pound, one input at a time: each is lowered and raised by `change` of itself
 * while the others stay, so interactions are not separated. Largest swing first; equal swings in the order of the
 * form. A share stops at 0.99.
 * @throws ValidationError `share.out-of-range` unless 0 < change < 1, and as `costOf`
 * @example sensitivity(service, 0.1)[0].input // 'wagePerHour' if labor is most of the cost
 */
export function sensitivity(service: Service, change = 0.1): Swing[] {
  if (!(change > 0 && change < 1)) throw new ValidationError('share.out-of-range', 'change');
  return SERVICE_INPUTS.map((input) => {
    const isShare = input === 'shrink' || input === 'boughtFatShare';
    const at = (factor: number): number => {
      const raised = service[input] * factor;
      const value =
        isShare && factor > 1 ? Math.min(raised, Math.max(HIGHEST_SHARE, service[input])) : raised;
      return costOf({ ...service, [input]: value }).costPerLb;
    };
    const lowCostPerLb = at(1 - change);
    const highCostPerLb = at(1 + change);
    return { input, lowCostPerLb, highCostPerLb, swing: Math.abs(highCostPerLb - lowCostPerLb) };
  }).sort((a, b) => b.swing - a.swing);
}
