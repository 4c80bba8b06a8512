/** Flows of primals from the block to the Table, weighed or at their usual share. */
import type { Flow } from '../../core/balance/balance.ts';
import { flowOf, type BalanceRow } from './balance-flow.ts';
import { likelyBase, oneSideOnly, PRIMAL_SPREAD, primalRows, type PrimalKnown } from '../animal/primals.ts';

/** Loss in sawdust and drip while breaking down, as a share of the carcass; the SD is the same. Assumption. */
const CUT_LOSS = 0.003;

interface PrimalFlows {
  flows: Flow[];
  nodes: string[];
  /**
   * Every primal that came in was weighed whole, so the block is balanced and the hanging weight can be checked too.
   */
  complete: boolean;
}

/**
 * Flows from the block to the Table; empty if no primal was weighed. Each weighed primal is checked by its usual
 * share, and all of them by the carcass. Unweighed primals take their usual share. During cutting, if one side of a
 * pair was weighed, the other one is still expected.
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
