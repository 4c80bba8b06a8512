import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { paintOf, streamOf } from '../engine/part-paint.ts';
import type { FlowNode, FlowPlot } from '../plot.ts';

const MIXER = 'mixer';

/**
 * Input and output of the grinder on its own scale: meat, fat and what recipes added on the left; packages, residue and water lost in the
 * smoker on the right.
 */
export function drawGrinder(grinder: PoundsReport['grinder'], format: Format): FlowPlot {
  const { inGrams, fatGrams, addedGrams, outGrams, lossGrams, driedGrams, batches } = grinder;
  const whole = inGrams + fatGrams + addedGrams;
  const mass = (grams: number): string => format.mass(grams, 0);
  const share = (grams: number): string => format.share(grams / whole);
  const into = [
    { key: 'meat', grams: inGrams, paint: paintOf('trim'), stream: streamOf('trim') },
    { key: 'fat', grams: fatGrams, paint: paintOf('fat saved'), stream: streamOf('fat saved') },
    { key: 'added', grams: addedGrams, paint: 'muted' as const, stream: 'line' as const },
  ].filter(({ grams }) => grams > 0);
  const lost = Math.max(0, lossGrams);
  const out = [
    { key: 'packed', grams: outGrams, paint: 'spruce' as const, stream: streamOf('trim'), words: text.grinderOut({ mass: mass(outGrams) }) },
    { key: 'grinder', grams: lost, paint: paintOf('grinder'), stream: streamOf('grinder'), words: text.grinderLoss({ mass: mass(lost), share: share(lost) }) },
    { key: 'smokehouse', grams: driedGrams, paint: paintOf('smokehouse'), stream: streamOf('smokehouse'), words: text.dried({ mass: mass(driedGrams), share: share(driedGrams) }) },
  ].filter(({ grams }) => grams > 0);
  return {
    height: 137 + 33 * Math.max(into.length, out.length),
    heading: [
      { text: text.grinder({ batches }), bold: true },
      { text: text.grinderIn({ meat: mass(inGrams), fat: fatGrams > 0 ? mass(fatGrams) : null, added: addedGrams > 0 ? mass(addedGrams) : null }) },
    ],
    nodes: [
      ...into.map(({ key, paint }): FlowNode => ({ key, column: 0, paint, words: [], link: '' })),
      { key: MIXER, column: 1, paint: paintOf('trim'), words: [], link: '' },
      ...out.map(({ key, paint, words }): FlowNode => ({ key, column: 2, paint, words: [words], link: '' })),
    ],
    flows: [
      ...into.map(({ key, grams, stream }) => ({ from: key, to: MIXER, amount: grams, paint: stream })),
      ...out.map(({ key, grams, stream }) => ({ from: MIXER, to: key, amount: grams, paint: stream })),
    ],
  };
} // prettier-ignore
