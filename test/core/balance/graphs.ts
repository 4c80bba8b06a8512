/** Graphs to test balances on, and a slow, plain solution of the same problem to compare with. */
import fc from 'fast-check';
import { Matrix, pseudoInverse } from 'ml-matrix';
import type { BalanceInput, Flow } from '../../../src/core/balance/balance.ts';

const NODES = ['a', 'b', 'c', 'd'];
const place = fc.constantFrom(null, ...NODES);

/** Any small graph, any readings, some missing, some with a prior: it need not make sense as a carcass. */
export const anyGraph: fc.Arbitrary<BalanceInput> = fc
  .array(
    fc
      .record({
        from: place,
        to: place,
        grams: fc.option(fc.integer({ min: 1, max: 5000 }), { freq: 3 }),
        sd: fc.integer({ min: 1, max: 60 }),
        prior: fc.option(
          fc.record({ mean: fc.integer({ min: 0, max: 5000 }), sd: fc.integer({ min: 1, max: 200 }) }),
          {
            freq: 1,
            nil: undefined,
          },
        ),
      })
      .filter(({ from, to }) => from !== to),
    { minLength: 1, maxLength: 10 },
  )
  .map((flows) => ({ nodes: NODES, flows: flows.map((flow, i) => ({ id: `f${i}`, ...flow })) }));

/** A carcass that closes exactly: received, shrink, two primals, each cut into parts; all weighed. */
export const perfectCarcass: fc.Arbitrary<BalanceInput> = fc
  .record({
    shrink: fc.integer({ min: 0, max: 3000 }),
    parts: fc.array(fc.array(fc.integer({ min: 1, max: 40_000 }), { minLength: 2, maxLength: 5 }), {
      minLength: 1,
      maxLength: 4,
    }),
    sd: fc.integer({ min: 1, max: 100 }),
  })
  .map(({ shrink, parts, sd }) => {
    const primals = parts.map((part) => sum(part));
    const flows: Flow[] = [
      { id: 'received', from: null, to: 'rail', grams: sum(primals) + shrink, sd },
      { id: 'shrink', from: 'rail', to: null, grams: shrink, sd },
    ];
    parts.forEach((part, p) => {
      flows.push({ id: `primal ${p}`, from: 'rail', to: `table ${p}`, grams: primals[p] as number, sd });
      part.forEach((grams, i) =>
        flows.push({ id: `part ${p}.${i}`, from: `table ${p}`, to: null, grams, sd }),
      );
    });
    return { nodes: ['rail', ...parts.map((_, p) => `table ${p}`)], flows };
  });

export function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}

/** Freezes everything inside, so that a function that writes into its input throws. */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
}

/**
 * The same problem by dense matrices: a reading and a prior of one flow are averaged by their weights, the
 * unmeasured columns are projected out with a pseudo-inverse, then x = y - V·Gᵀ·(G·V·Gᵀ)⁺·G·y.
 */
export function densely({ flows, nodes }: BalanceInput) {
  const inner = nodes.filter(
    (node) => flows.some((flow) => flow.to === node) && flows.some((flow) => flow.from === node),
  );
  const balances = (some: readonly Flow[]) =>
    inner.length && some.length
      ? new Matrix(
          inner.map((node) => some.map(({ from, to }) => Number(to === node) - Number(from === node))),
        )
      : Matrix.zeros(Math.max(1, inner.length), some.length);
  const sources = flows.map(({ grams, sd, prior }) => [
    ...(grams === null ? [] : [{ mean: grams, weight: (sd as number) ** -2 }]),
    ...(prior ? [{ mean: prior.mean, weight: prior.sd ** -2 }] : []),
  ]);
  const measured = flows.filter((_, i) => sources[i]?.length);
  const unmeasured = flows.filter((_, i) => !sources[i]?.length);
  const told = sources.filter((all) => all.length > 0);
  const weights = told.map((all) => sum(all.map((one) => one.weight)));
  const y = told.map((all, i) => sum(all.map((one) => one.mean * one.weight)) / (weights[i] as number));
  // A flow told twice already disagrees with itself before any balance is drawn.
  const within = sum(told.map((all, i) => sum(all.map((one) => one.weight * (one.mean - (y[i] as number)) ** 2)))); // prettier-ignore
  const twice = told.filter((all) => all.length === 2).length;

  const free = balances(unmeasured);
  const back = unmeasured.length ? pseudoInverse(free) : Matrix.zeros(0, free.rows);
  const whole = Matrix.eye(free.rows);
  const project = unmeasured.length ? Matrix.sub(whole, free.mmul(back)) : whole;
  const estimates = new Map<string, { grams: number; sd: number } | null>();
  const unknown = Matrix.eye(unmeasured.length).sub(back.mmul(free));
  const settled = (i: number) => Math.max(...unknown.getRow(i).map(Math.abs)) < 1e-9;
  if (measured.length === 0) {
    unmeasured.forEach(({ id }, i) => estimates.set(id, settled(i) ? { grams: 0, sd: 0 } : null));
    return { estimates, chiSquare: within, degrees: twice };
  }

  const g = project.mmul(balances(measured));
  g.apply((i, j) => {
    if (Math.abs(g.get(i, j)) < 1e-9) g.set(i, j, 0); // nothing but rounding is left there
  });
  const v = Matrix.diag(weights.map((weight) => 1 / weight));
  const seen = g.mmul(v).mmul(g.transpose());
  const gain = v.mmul(g.transpose()).mmul(pseudoInverse(seen, 1e-9));
  const open = g.mmul(Matrix.columnVector(y));
  const x = Matrix.columnVector(y).sub(gain.mmul(open));
  const covariance = Matrix.sub(v, gain.mmul(g).mmul(v));
  const noted = (id: string, grams: number, variance: number) =>
    estimates.set(id, { grams, sd: Math.sqrt(Math.max(0, variance)) });
  measured.forEach(({ id }, i) => noted(id, x.get(i, 0), covariance.get(i, i)));
  if (unmeasured.length > 0) {
    const toFree = back.mmul(balances(measured)).mul(-1);
    const spread = toFree.mmul(covariance).mmul(toFree.transpose());
    const values = toFree.mmul(x);
    unmeasured.forEach(({ id }, i) => {
      if (settled(i)) noted(id, values.get(i, 0), spread.get(i, i));
      else estimates.set(id, null);
    });
  }
  const chiSquare = within + open.transpose().mmul(pseudoInverse(seen, 1e-9)).mmul(open).get(0, 0);
  const degrees = twice + Math.round(gain.mmul(g).trace());
  return { estimates, chiSquare, degrees };
}
