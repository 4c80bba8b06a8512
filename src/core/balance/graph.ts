/**
 * The balance as a graph of numbered nodes. Unmeasured flows are eliminated by the topology of the graph alone: only the
 * joint balance of two nodes connected by an unmeasured flow can be checked, so the nodes are merged. This is exactly the
 * projection that removes the unmeasured columns of the balance
 * matrix, without any tolerance for rank. Source: Mah, Stanley & Downing, Reconciliation and rectification of
 * process flow and inventory data, Ind. Eng. Chem. Process Des. Dev. 15:175 (1976).
 */
import type { Flow } from './input.ts';

/** The environment; terminal nodes count as part of it, see `graphOf`. */
export const WORLD = 0;

export interface Edge {
  /** Index of its flow in the input. */
  flow: number;
  from: number;
  to: number;
  known: { grams: number; sd: number } | null;
}

export interface Graph {
  /** Count of nodes, numbered from 0. */
  nodeCount: number;
  edges: Edge[];
}

/**
 * A node with flows only in, or only out, is terminal: it has no balance and counts as the environment. A flow with both a
 * reading and a prior becomes two edges in series, so that the two check each other; the first edge of a flow is its
 * reading if it has one.
 */
export function graphOf(flows: readonly Flow[], nodes: readonly string[]): Graph {
  const entered = new Set(flows.map((flow) => flow.to));
  const inner = nodes.filter((node) => entered.has(node) && flows.some((flow) => flow.from === node));
  const place = new Map(inner.map((node, i) => [node, i + 1]));
  const numbered = (node: string | null) => (node === null ? WORLD : (place.get(node) ?? WORLD));
  let nodeCount = inner.length + 1;
  const edges = flows.flatMap((flow, i): Edge[] => {
    const [from, to] = [numbered(flow.from), numbered(flow.to)];
    const reading = flow.grams === null ? null : { grams: flow.grams, sd: flow.sd as number };
    const prior = flow.prior ? { grams: flow.prior.mean, sd: flow.prior.sd } : null;
    if (!reading || !prior) return [{ flow: i, from, to, known: reading ?? prior }];
    const between = nodeCount++;
    return [
      { flow: i, from, to: between, known: reading },
      { flow: i, from: between, to, known: prior },
    ];
  });
  return { nodeCount, edges };
}

/** For each node the number of its balance; -1 for nodes that no measured flow can check. */
export function balancesOf({ nodeCount, edges }: Graph): number[] {
  const group = joined(
    nodeCount,
    edges.filter((edge) => !edge.known),
  );
  const island = joined(nodeCount, edges);
  // The balances of a connected component sum to zero, so one is redundant: the environment's, else the first node's.
  const spare = new Set(island.map((first) => group[first]));
  const numbers = [...new Set(group)].filter((first) => !spare.has(first));
  return group.map((first) => numbers.indexOf(first));
}

/**
 * The nodes connected to `edge.from` (or to `edge.to`) through unmeasured flows other than `edge`, on the side away from the
 * environment. Null if both ends are connected: then the flow is in a cycle of unmeasured flows, or from environment to
 * environment, and is unobservable.
 */
export function sideOf({ nodeCount, edges }: Graph, edge: Edge): ReadonlySet<number> | null {
  const group = joined(
    nodeCount,
    edges.filter((other) => !other.known && other !== edge),
  );
  const [start, end] = [group[edge.from], group[edge.to]];
  if (start === end) return null;
  const side = start === group[WORLD] ? end : start;
  return new Set(group.flatMap((first, place) => (first === side ? [place] : [])));
}

/** Union-find: for each node the lowest-numbered node that `edges` connect it to, itself included. */
function joined(nodeCount: number, edges: readonly Edge[]): number[] {
  const parent = Array.from({ length: nodeCount }, (_, place) => place);
  const root = (place: number): number => {
    let at = place;
    while (parent[at] !== at) at = parent[at] as number;
    return at;
  };
  for (const { from, to } of edges) {
    const [a, b] = [root(from), root(to)];
    parent[Math.max(a, b)] = Math.min(a, b);
  }
  return parent.map((_, place) => root(place));
}
