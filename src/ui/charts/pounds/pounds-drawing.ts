import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { type Fate, paintOf, streamOf } from '../engine/part-paint.ts';
import type { FlowNode, FlowPlot } from '../plot.ts';
import { fateName, fatesOf, isHome, weighedOf } from './fates.ts';

const [HOOK, TAKEN] = ['hook', 'home'];

/** Streams from the hook to each fate, and on to what went home. */
export function drawPounds(view: PoundsReport, format: Format, linkOf: (fate: Fate) => string): FlowPlot {
  const fates = [...fatesOf(view)];
  const homes = fates.filter(([fate]) => isHome(fate));
  const grams = homes.reduce((total, [, one]) => total + one, 0);
  const share = (one: number): string => format.share(one / weighedOf(view));
  return {
    height: 540,
    heading: [
      { text: text.onTheHook, bold: true, tone: 'muted' },
      { text: format.mass(view.baseGrams, 0), bold: true, size: 24 },
      ...(view.overGrams > 0 ? [{ text: text.over({ mass: format.mass(view.overGrams, 1) }), bold: true as const, tone: 'blaze' as const }] : []),
    ],
    nodes: [
      { key: HOOK, column: 0, paint: 'spruce', words: [], link: '' },
      ...fates.map(([fate, one]): FlowNode => ({
        key: fate,
        column: 1,
        paint: paintOf(fate),
        words: [fateName(view, fate), `${format.mass(one, 0)} · ${share(one)}`],
        link: linkOf(fate),
      })),
      ...(homes.length > 0
        ? [{ key: TAKEN, column: 2, paint: 'spruce' as const, words: [text.takeHome, share(grams), format.mass(grams, 0)], large: true as const, link: '' }]
        : []),
    ],
    flows: [
      ...fates.map(([fate, amount]) => ({ from: HOOK, to: fate, amount, paint: streamOf(fate) })),
      ...homes.map(([fate, amount]) => ({ from: fate, to: TAKEN, amount, paint: streamOf(fate) })),
    ],
  };
} // prettier-ignore
