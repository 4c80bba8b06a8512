/** Degree-hours of a fermentation until pH 5.3. They concern Staphylococcus aureus alone and kill nothing. */
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import type { DegreeHourLimit } from './figures.ts';

/** Degrees count above 60 °F. */
const BASE_F = 60;

export interface DegreeHours {
  readonly degreeHours: number;
  readonly most: number;
  readonly meets: boolean;
}

/**
 * The sum of (°F − 60) × hours held against the limit that the highest temperature chooses.
 * @throws ValidationError `number.not-finite`, `hours.negative`, `steps.empty`, `figures.none`
 */
export function degreeHours(
  steps: readonly { readonly f: number; readonly hours: number }[],
  limits: readonly DegreeHourLimit[],
): DegreeHours {
  if (steps.length === 0) throw new ValidationError('steps.empty', 'steps');
  let [sum, highest] = [0, -Infinity];
  for (const [i, { f, hours }] of steps.entries()) {
    if (requireFinite(hours, `steps[${i}].hours`) < 0)
      throw new ValidationError('hours.negative', `steps[${i}].hours`);
    sum += Math.max(0, requireFinite(f, `steps[${i}].f`) - BASE_F) * hours;
    highest = Math.max(highest, f);
  }
  const holding = limits.filter(({ reachesF, exclusive }) =>
    exclusive ? highest > reachesF : highest >= reachesF,
  );
  const most = Math.min(...holding.map((limit) => limit.most));
  if (!Number.isFinite(most)) throw new ValidationError('figures.none', 'limits');
  return { degreeHours: sum, most, meets: sum <= most };
}
