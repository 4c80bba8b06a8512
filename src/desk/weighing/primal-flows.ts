/** The carcass broken down: from the block each primal goes on to the table, weighed or as it usually is. */
import type { Flow } from '../../core/balance/balance.ts';
import { flowOf, type BalanceRow } from './balance-flow.ts';
import { likelyBase, oneSideOnly, PRIMAL_SPREAD, primalRows, type PrimalKnown } from '../animal/primals.ts';

/** Sawdust, drip and crumbs of breaking down, as a share of the carcass, and as wide. Assumption. */
const CUT_LOSS = 0.003;

interface PrimalFlows {
  flows: Flow[];
  nodes: string[];
  /** Every primal that came in was weighed whole: then the block closes, and the hook can be doubted too. */
  complete: boolean;
}

/**
 * Flows from the block to the table; none while no primal was weighed. A weighed primal is checked by its usual
 * share, and all of them by what went onto the block; those not weighed are taken as they usually are. While the
 * work goes on, of a pair whose one side was weighed the other is still to come.
 */
export function primalFlows(
  primals: readonly PrimalKnown[],
  weighings: readonly BalanceRow[],
  base: number,
  going: boolean,
): PrimalFlows {
  const weighed = primalRows(weighings);
  if (weighed.size === 0) return { flows: [], nodes: [], complete: false };
  const came = primals.filter(({ share }) => share > 0);
  const likely = likelyBase(primals, weighed, base);
  const state = came.map((primal) => {
    const rows = weighed.get(primal.code) ?? [];
    const grams = rows.reduce((total, row) => total + row.grams, 0);
    return { primal, rows, open: going && oneSideOnly(primal, grams, likely) };
  });
  const flows = state.flatMap(({ primal, rows, open }): Flow[] => {
    const mean = primal.share * likely;
    const usual = { grams: null, prior: { mean, sd: mean * PRIMAL_SPREAD } };
    if (rows.length === 0) return [{ id: `unweighed ${primal.code}`, from: 'block', to: 'table', ...usual }];
    const node = nodeOf(primal);
    return [
      ...rows.map((row) => flowOf(row, 'block', node)),
      ...(open ? [{ id: `other side ${primal.code}`, from: 'block', to: node, grams: null }] : []),
      { id: `usual ${primal.code}`, from: node, to: 'table', ...usual },
    ];
  });
  const lost = { mean: CUT_LOSS * base, sd: CUT_LOSS * base };
  return {
    flows: [...flows, { id: 'cut loss', from: 'block', to: null, grams: null, prior: lost }],
    nodes: ['block', ...state.filter(({ rows }) => rows.length > 0).map(({ primal }) => nodeOf(primal))],
    complete: state.every(({ rows, open }) => rows.length > 0 && !open),
  };
}

const nodeOf = ({ code }: PrimalKnown): string => `primal ${code}`;
