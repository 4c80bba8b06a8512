import type { HangState } from '../../bridge/contract.ts';

/** Size of a tag's own box, in its units. */
export const TAG = { width: 48, height: 46, holeX: 24, holeY: 7 } as const;

/** Outlines of a rail tag from its own corner, distinguishable by the lower edge as well as by color. */
const lowerEdge: Record<HangState, string> = {
  fresh: 'V45 H0', // straight
  ready: 'V34 L37 45 H11 L0 34', // corners cut
  due: 'V36 L24 46 L0 36', // one point
  over: 'V40 L40 46 L32 40 L24 46 L16 40 L8 46 L0 40', // torn, below the figures
};

/** The SVG path of a tag in one state. @example tagShape('fresh') // 'M0 9 L9 0 H39 L48 9 V45 H0 Z' */
export function tagShape(state: HangState): string {
  return `M0 9 L9 0 H39 L48 9 ${lowerEdge[state]} Z`;
}
