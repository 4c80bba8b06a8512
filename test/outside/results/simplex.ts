import solver from 'javascript-lp-solver';

/** Grams of a fat that bring 100 g of lean to the target, all in percent, by a simplex that is none of ours. */
export function gramsBySimplex(lean: number, fat: number, target: number): number {
  const answer = solver.Solve({
    optimize: 'cost',
    opType: 'min',
    constraints: { lean: { equal: 100 }, above: { min: 0 } },
    variables: {
      lean: { lean: 1, above: lean - target, cost: 0 },
      fat: { above: fat - target, cost: 3 },
    },
  }) as unknown as { feasible: boolean; fat: number };
  return answer.feasible ? answer.fat : NaN;
}
