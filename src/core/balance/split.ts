/** Splits the readings into the component that the balances constrain and the free one. */
import { Matrix, QrDecomposition } from 'ml-matrix';
import { balancesOf, type Edge, type Graph } from './graph.ts';

/** The checked edges, i.e. those in some balance, with one row each in the lists below. */
export interface Split {
  position: ReadonlyMap<Edge, number>;
  /** Rows of an orthonormal basis: first the constrained subspace, then the free one. */
  seen: number[][];
  free: number[][];
  /** Reading minus estimate, in standard deviations. */
  residuals: number[];
  /** Sum of the squared residuals, and the number of independent balances. */
  chiSquare: number;
  degrees: number;
}

/**
 * With B the balances, D the standard deviations of the checked edges and y what was read: the estimates are
 * x = y - D·r, where r is the part of D⁻¹y that lies in the range of D·Bᵀ. A QR of D·Bᵀ, never of its square
 * B·D²·Bᵀ, gives r, the constrained share of each reading's variance, and the covariance of x as sums of
 * squares, so that nothing cancels.
 */
export function splitOf(graph: Graph): Split {
  const balance = balancesOf(graph);
  const degrees = Math.max(...balance) + 1;
  const at = (place: number) => balance[place] as number;
  const checked = graph.edges.filter(({ known, from, to }) => known && at(from) !== at(to));
  const sd = checked.map((edge) => edge.known?.sd ?? 0);
  if (degrees === 0) return { position: new Map(), seen: [], free: [], residuals: [], chiSquare: 0, degrees };

  // Zero columns make Q square: its further columns span the free subspace.
  const scaled = Matrix.zeros(checked.length, checked.length);
  checked.forEach(({ from, to }, i) => {
    if (at(to) >= 0) scaled.set(i, at(to), sd[i] as number);
    if (at(from) >= 0) scaled.set(i, at(from), -(sd[i] as number));
  });
  const qr = new QrDecomposition(scaled);
  const triangle = qr.upperTriangularMatrix;
  const rows = qr.orthogonalMatrix.to2DArray();
  const seen = rows.map((row) => row.slice(0, degrees));

  const residuals = checked.map(() => 0);
  // The second round is iterative refinement.
  for (let round = 0; round < 2; round++) {
    const open = Array<number>(degrees).fill(0);
    checked.forEach(({ known, from, to }, i) => {
      const grams = (known?.grams ?? 0) - (sd[i] as number) * (residuals[i] as number);
      if (at(to) >= 0) open[at(to)] = (open[at(to)] as number) + grams;
      if (at(from) >= 0) open[at(from)] = (open[at(from)] as number) - grams;
    });
    const step = forward(triangle, open);
    seen.forEach((row, i) => (residuals[i] = (residuals[i] as number) + dot(row, step)));
  }
  const chiSquare = dot(residuals, residuals);
  const position = new Map(checked.map((edge, i) => [edge, i]));
  const free = rows.map((row) => row.slice(degrees));
  return { position, seen, free, residuals, chiSquare, degrees };
}

/** Solves Rᵀ·w = open for the upper triangle R. */
function forward(triangle: Matrix, open: readonly number[]): number[] {
  const w: number[] = [];
  open.forEach((value, i) => {
    const done = w.reduce((sum, known, j) => sum + triangle.get(j, i) * known, 0);
    w.push((value - done) / triangle.get(i, i));
  });
  return w;
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
}
