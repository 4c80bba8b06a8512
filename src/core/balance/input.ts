/** The flows and nodes of a balance, and their validation. */
import { ValidationError } from '../values/validation-error.ts';

/** Mass going from one place to another. */
export interface Flow {
  id: string;
  /** Id of a node, or null for the environment. */
  from: string | null;
  to: string | null;
  /** The reading, net; null = not weighed. */
  grams: number | null;
  /** Standard deviation of the reading in grams, > 0; ignored for an unweighed flow. */
  sd?: number;
  /** Prior knowledge in grams, e.g. shrink: mean 2 % of the hanging weight, sd 1.5 % of it. */
  prior?: { mean: number; sd: number };
}

export interface BalanceInput {
  flows: readonly Flow[];
  /** Ids of the nodes that conserve mass. */
  nodes: readonly string[];
}

/** Limit of the dense solver, whose time grows with the cube of the flows: a carcass has a few dozen. */
export const MAX_FLOWS = 300;
/** A thousand tonnes: with larger numbers rounding exceeds a gram. */
const MAX_GRAMS = 1e9;
/** Largest ratio of two standard deviations; beyond it the sums lose all digits. */
const MAX_SD_RATIO = 1e6;

/**
 * @throws ValidationError `balance.too-many-flows`, `balance.id-twice`, `balance.unknown-node`, `balance.same-ends`,
 *   `balance.sd-spread`, `number.not-finite`, `number.too-large`, `flow.negative`, `sd.not-positive`
 */
export function checkInput({ flows, nodes }: BalanceInput): void {
  if (flows.length > MAX_FLOWS) {
    throw new ValidationError('balance.too-many-flows', 'flows', { flows: flows.length, most: MAX_FLOWS });
  }
  checkUnlike(nodes, 'nodes');
  checkUnlike(
    flows.map((flow) => flow.id),
    'flows',
  );
  const known = new Set(nodes);
  flows.forEach((flow, i) => checkFlow(flow, known, `flows[${i}]`));
  const sds = flows.flatMap(({ grams, sd, prior }) => [
    ...(grams === null || sd === undefined ? [] : [sd]),
    ...(prior ? [prior.sd] : []),
  ]);
  if (Math.max(...sds) > MAX_SD_RATIO * Math.min(...sds))
    throw new ValidationError('balance.sd-spread', 'flows');
}

function checkUnlike(ids: readonly string[], field: string): void {
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice !== undefined) throw new ValidationError('balance.id-twice', field, { id: twice });
}

function checkFlow(flow: Flow, known: ReadonlySet<string>, field: string): void {
  const { id, from, to, grams, sd, prior } = flow;
  for (const end of [from, to]) {
    if (end !== null && !known.has(end)) {
      throw new ValidationError('balance.unknown-node', field, { id, node: end });
    }
  }
  if (from === to) throw new ValidationError('balance.same-ends', field, { id });
  if (grams !== null) {
    checkSize(grams, `${field}.grams`);
    if (grams < 0) throw new ValidationError('flow.negative', `${field}.grams`, { id });
    checkSd(sd ?? Number.NaN, `${field}.sd`);
  }
  if (prior) {
    checkSize(prior.mean, `${field}.prior.mean`);
    checkSd(prior.sd, `${field}.prior.sd`);
  }
}

function checkSize(value: number, field: string): void {
  if (!Number.isFinite(value)) throw new ValidationError('number.not-finite', field);
  if (Math.abs(value) > MAX_GRAMS) throw new ValidationError('number.too-large', field);
}

function checkSd(sd: number, field: string): void {
  if (!(sd > 0)) throw new ValidationError('sd.not-positive', field);
  checkSize(sd, field);
}
