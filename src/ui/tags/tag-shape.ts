import type { HangState } from '../../bridge/contract.ts';

/**
 * Outlines of a rail tag, 56 wide and 54 high from its own corner, distinguishable by the lower edge as well as by
 * color.
 */
const lowerEdge: Record<HangState, string> = {
  fresh: 'V52 H0', // straight
  ready: 'V39 L43 52 H13 L0 39', // corners cut
  late: 'V42 L28 54 L0 42', // one point
  over: 'V42 L46.7 54 L37.3 42 L28 54 L18.7 42 L9.3 54 L0 42', // torn
};

/** The SVG path of a tag in one state. @example tagShape('fresh') // 'M0 10 L10 0 H46 L56 10 V52 H0 Z' */
export function tagShape(state: HangState): string {
  return `M0 10 L10 0 H46 L56 10 ${lowerEdge[state]} Z`;
}
