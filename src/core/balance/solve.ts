/** Weighted least squares over the balances of a graph; unmeasured flows follow from the result. */
import { sideOf, type Edge, type Graph } from './graph.ts';
import { splitOf, type Split } from './split.ts';

/** The solution of one edge. */
export interface Solved {
  /** Best estimate in grams and its standard deviation; null if unobservable. */
  grams: number | null;
  sd: number | null;
  /** Measurement test: (estimate - known) / sd of that difference; null if nothing checks the edge. */
  z: number | null;
}

export interface Solution {
  edges: Solved[];
  /** Minimum of the weighted sum of squares, and the number of independent balances. */
  chiSquare: number;
  degrees: number;
}

/**
 * Estimates, their standard deviations and the measurement test for every edge. Source: Narasimhan & Jordache,
 * Data Reconciliation and Gross Error Detection, Gulf, 2000, chapters 3 and 7; measurement test: Mah & Tamhane,
 * AIChE J. 28:828 (1982), whose two forms are one here because readings err independently.
 */
export function solve(graph: Graph): Solution {
  const split = splitOf(graph);
  const known = new Map<Edge, Solved>();
  for (const edge of graph.edges) {
    if (!edge.known) continue;
    const at = split.position.get(edge);
    const { grams, sd } = edge.known;
    known.set(edge, at === undefined ? { grams, sd, z: null } : checkedEdge(edge.known, split, at));
  }
  const edges = graph.edges.map((edge) => known.get(edge) ?? unweighed(graph, edge, known, split));
  return { edges, chiSquare: split.chiSquare, degrees: split.degrees };
}

function checkedEdge({ grams, sd }: NonNullable<Edge['known']>, split: Split, at: number): Solved {
  const residual = split.residuals[at] as number;
  const seen = length(split.seen[at] ?? []);
  return {
    grams: grams - sd * residual,
    sd: sd * length(split.free[at] ?? []),
    z: residual === 0 ? 0 : -residual / seen,
  };
}

/** The net flow into the nodes on one side of the edge passes through it. */
function unweighed(graph: Graph, edge: Edge, known: ReadonlyMap<Edge, Solved>, split: Split): Solved {
  const side = sideOf(graph, edge);
  if (!side) return { grams: null, sd: null, z: null };
  const outward = side.has(edge.from) ? 1 : -1;
  let grams = 0;
  let variance = 0;
  const free = (split.free[0] ?? []).map(() => 0);
  for (const [other, solved] of known) {
    const sign = outward * (Number(side.has(other.to)) - Number(side.has(other.from)));
    if (sign === 0) continue;
    grams += sign * (solved.grams as number);
    const at = split.position.get(other);
    if (at === undefined) variance += (solved.sd as number) ** 2;
    else
      free.forEach((sum, j) => (free[j] = sum + sign * (other.known?.sd ?? 0) * (split.free[at]?.[j] ?? 0)));
  }
  return { grams, sd: Math.hypot(Math.sqrt(variance), length(free)), z: null };
}

function length(row: readonly number[]): number {
  return Math.hypot(...row);
}
