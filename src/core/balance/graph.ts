/**
 * The balance as a graph of numbered places. What was not weighed is eliminated here, by the shape of the graph
 * alone: the balances of two places joined by an unweighed flow only hold together, so the places are merged.
 * For flows between places this is exactly the projection that removes the unmeasured columns of the balance
 * matrix, without any tolerance for rank. Source: Mah, Stanley & Downing, Reconciliation and rectification of
 * process flow and inventory data, Ind. Eng. Chem. Process Des. Dev. 15:175 (1976).
 */
import type { Flow } from './input.ts';

/** The world outside; also every end, see `graphOf`. */
export const WORLD = 0;

export interface Edge {
  /** Position of its flow in the input. */
  flow: number;
  from: number;
  to: number;
  known: { grams: number; sd: number } | null;
}

export interface Graph {
  /** Count of places, numbered from 0. */
  nodeCount: number;
  edges: Edge[];
}

/**
 * A node with flows only in, or only out, is an end: what lies there has not gone on yet, so nothing closes and
 * the node counts as outside. A flow with both a reading and a prior becomes two edges in line, so that the two
 * check each other; the first edge of a flow is its reading if it has one.
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

/** For each place the number of the balance it belongs to; -1 for places that no known flow can check. */
export function balancesOf({ nodeCount, edges }: Graph): number[] {
  const group = joined(
    nodeCount,
    edges.filter((edge) => !edge.known),
  );
  const island = joined(nodeCount, edges);
  // On an island the balances sum to zero, so one is spare: the world's own, else that of the first place.
  const spare = new Set(island.map((first) => group[first]));
  const numbers = [...new Set(group)].filter((first) => !spare.has(first));
  return group.map((first) => numbers.indexOf(first));
}

/**
 * The places that hang together with `edge.from` (or with `edge.to`) through unweighed flows other than `edge`,
 * on the side away from the world; null if both ends do: then the flow runs in a circle of unweighed flows, or
 * between outside and outside, and nothing tells its weight.
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

/** For each place the lowest-numbered place that it is joined to by `edges`, itself included. */
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
