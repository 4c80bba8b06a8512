import { graphOf, type Edge } from './graph.ts';
import { checkInput, type BalanceInput, type Flow } from './input.ts';
import { solve, type Solved } from './solve.ts';

export type { BalanceInput, Flow };

/** What the balance makes of one flow. All in grams. */
export interface ReconciledFlow {
  id: string;
  /** Best estimate; null if neither a reading nor the balance tells it. */
  grams: number | null;
  sd: number | null;
  /** Estimate minus reading (minus the prior's mean where nothing was weighed); null if there is neither. */
  adjusted: number | null;
  /** `adjusted` in its own standard deviations; null if nothing checks the flow. */
  z: number | null;
  /** The rest of the balance would tell this flow without its reading or prior; so it is checked. */
  redundant: boolean;
  /** A reading, a prior or the balance tells it. */
  observable: boolean;
  /** The estimate is below zero: something else was misread, since mass does not flow backwards. */
  negative: boolean;
}

export interface Reconciled {
  flows: ReconciledFlow[];
  /** Weighted sum of squared adjustments, and the independent balances behind it. */
  chiSquare: number;
  degrees: number;
  /** Per node: in minus out by the readings as they stand; null unless each of its flows was weighed. */
  imbalances: { node: string; grams: number | null }[];
}

/** Below zero by more than rounding: as a share of the largest reading. */
const NEGATIVE_TOLERANCE = 1e-9;

/**
 * Reconciles weights on a graph in which what goes into a place must come out: the estimates that close every
 * balance and lie nearest to the readings, nearness counted in each reading's standard deviation. Readings err
 * independently and normally. The readings themselves are never changed; estimates may come out below zero and
 * are then marked, not cut. Methods and sources: `balance-graph.ts`, `balance-solve.ts`.
 *
 * With a single balance all its readings have the same |z|: the balance alone cannot tell which of them is wrong.
 * @throws ValidationError as `checkInput` in `balance-input.ts`
 * @example
 * reconcile({ nodes: ['table'], flows: [
 *   { id: 'hanging', from: null, to: 'table', grams: 1000, sd: 3 },
 *   { id: 'meat', from: 'table', to: null, grams: 600, sd: 3 },
 *   { id: 'bone', from: 'table', to: null, grams: 391, sd: 3 } ] })
 * // hanging 997, meat 603, bone 394, each with sd 2.449; chiSquare 3, degrees 1
 */
export function reconcile(input: BalanceInput): Reconciled {
  checkInput(input);
  const { flows, nodes } = input;
  const graph = graphOf(flows, nodes);
  const { edges, chiSquare, degrees } = solve(graph);
  return {
    flows: flowsOf(flows, graph.edges, edges),
    chiSquare,
    degrees,
    imbalances: nodes.map((node) => ({ node, grams: imbalanceAt(node, flows) })),
  };
}

function flowsOf(
  flows: readonly Flow[],
  edges: readonly Edge[],
  solved: readonly Solved[],
): ReconciledFlow[] {
  const scale = Math.max(0, ...edges.map(({ known }) => Math.abs(known?.grams ?? 0)));
  return flows.map(({ id }, i) => {
    const at = edges.findIndex((edge) => edge.flow === i);
    const { grams, sd, z } = solved[at] as Solved;
    const known = edges[at]?.known ?? null;
    return {
      id,
      grams,
      sd,
      adjusted: known && grams !== null ? grams - known.grams : null,
      z,
      redundant: z !== null,
      observable: grams !== null,
      negative: grams !== null && grams < -NEGATIVE_TOLERANCE * scale,
    };
  });
}

/** An end of the graph, with flows only in or only out, never closes and is not asked to. */
function imbalanceAt(node: string, flows: readonly Flow[]): number | null {
  const into = flows.filter((flow) => flow.to === node);
  const out = flows.filter((flow) => flow.from === node);
  const all = [...into, ...out];
  if (into.length === 0 || out.length === 0 || all.some((flow) => flow.grams === null)) return null;
  const sum = (some: Flow[]) => some.reduce((total, flow) => total + (flow.grams ?? 0), 0);
  return sum(into) - sum(out);
}
