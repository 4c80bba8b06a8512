import { graphOf, type Edge } from './graph.ts';
import { checkInput, type BalanceInput, type Flow } from './input.ts';
import { solve, type Solved } from './solve.ts';

export type { BalanceInput, Flow };

/** The reconciled estimate of one flow, in grams. */
export interface ReconciledFlow {
  id: string;
  /** Best estimate; null if neither a reading nor the balance determines it. */
  grams: number | null;
  sd: number | null;
  /** Estimate minus reading (minus the prior's mean for an unweighed flow); null if there is neither. */
  adjusted: number | null;
  /** `adjusted` in its own standard deviations; null if the flow has no redundancy. */
  z: number | null;
  /** The rest of the balance determines this flow without its reading or prior, and so checks it. */
  redundant: boolean;
  /** A reading, a prior or the balance determines it. */
  observable: boolean;
  /** The estimate is negative: some other reading is wrong, because mass does not flow backwards. */
  negative: boolean;
}

export interface Reconciled {
  flows: ReconciledFlow[];
  /** Weighted sum of squared adjustments, and the independent balances behind it. */
  chiSquare: number;
  degrees: number;
  /** Per node: in minus out by the unadjusted readings; null unless each of its flows was weighed. */
  imbalances: { node: string; grams: number | null }[];
}

/** An estimate below zero by more than this share of the largest reading is negative, not rounding. */
const NEGATIVE_TOLERANCE = 1e-9;

/**
 * Data reconciliation by weighted least squares on a graph in which each node conserves mass: the estimates close every
 * balance and minimise the squared adjustments in units of each reading's standard deviation. Reading errors are independent
 * and normal. Readings are never changed; negative estimates are marked, not clamped. Methods and sources: `graph.ts`,
 * `solve.ts`.
 *
 * With a single balance all its readings have the same |z|: the balance alone cannot tell which of them is wrong.
 * @throws ValidationError as `checkInput` in `input.ts`
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

/** A terminal node, with flows only in or only out, has no balance. */
function imbalanceAt(node: string, flows: readonly Flow[]): number | null {
  const into = flows.filter((flow) => flow.to === node);
  const out = flows.filter((flow) => flow.from === node);
  const all = [...into, ...out];
  if (into.length === 0 || out.length === 0 || all.some((flow) => flow.grams === null)) return null;
  const sum = (some: Flow[]) => some.reduce((total, flow) => total + (flow.grams ?? 0), 0);
  return sum(into) - sum(out);
}
