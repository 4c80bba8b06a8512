import { fitLine } from '../../../src/core/stats/regression.ts';

/** One coefficient of a regression with an intercept and several predictors. */
export interface Coefficient {
  estimate: number;
  se: number;
  /** Standard deviation of the points about the fitted surface. */
  residualSd: number;
}

/**
 * The coefficient of predictor `which` in least squares of `ys` on all `columns` and an intercept, by nothing but
 * straight lines: each other predictor in turn is swept out of `ys` and of the predictors that are left, and the
 * last line's slope is the coefficient (Frisch & Waugh, Econometrica 1:387, 1933; Lovell, J. Am. Stat. Assoc.
 * 58:993, 1963; both from memory). The line counts n - 2 degrees of freedom, the whole regression n - k - 1.
 * @example sweptCoefficient([[1, 2, 3, 4], [1, 0, 0, 1]], [3, 4, 6, 9], 0).estimate // 2
 */
export function sweptCoefficient(
  columns: readonly (readonly number[])[],
  ys: readonly number[],
  which: number,
): Coefficient {
  let left = ys;
  let own = columns[which] ?? [];
  let others = columns.filter((_, i) => i !== which);
  for (let first = others[0]; first; first = others[0]) {
    const by = first;
    left = swept(by, left);
    own = swept(by, own);
    others = others.slice(1).map((column) => swept(by, column));
  }
  const { slope, slopeSe, residualSd } = fitLine(own, left);
  const wider = Math.sqrt((ys.length - 2) / (ys.length - columns.length - 1));
  return { estimate: slope, se: slopeSe * wider, residualSd: residualSd * wider };
}

/** Estimate and standard error of every coefficient in turn, and at the end the residual standard deviation. */
export function sweptCoefficients(columns: readonly (readonly number[])[], ys: readonly number[]): number[] {
  const each = columns.map((_, at) => sweptCoefficient(columns, ys, at));
  return [...each.flatMap(({ estimate, se }) => [estimate, se]), each[0]?.residualSd ?? NaN];
}

/** What a line in `by` leaves of `values`; swept twice, so that what rounding left behind goes too. */
function swept(by: readonly number[], values: readonly number[]): number[] {
  const once = leftOver(by, values);
  return leftOver(by, once);
}

function leftOver(by: readonly number[], values: readonly number[]): number[] {
  const line = fitLine(by, values);
  return values.map((value, i) => value - line.predict(by[i] as number, 0.5).mean);
}
