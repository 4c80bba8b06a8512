import type { CompareBy, ComparisonReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/compare.ts';
import type { Format } from '../../texts/format.ts';

export interface GroupNames {
  a: string;
  b: string;
}

interface MeasureWriter {
  value: (x: number) => string;
  gap: (x: number) => string;
}

/** Formats a measure: its value, and a difference, whose minus sign is none of the dashes of a range. */
export function measureWriter(by: CompareBy, format: Format): MeasureWriter {
  const { value, gap } = writerOf(by, format);
  return { value, gap: (x) => gap(x).replace('-', '−') };
}

function writerOf(by: CompareBy, format: Format): MeasureWriter {
  switch (by) {
    case 'takeHome':
    case 'bone':
    case 'damage':
      return {
        value: (x) => format.share(x),
        gap: (x) => text.points({ number: format.number(x * 100, 1) }),
      };
    case 'hanging':
      return { value: (x) => format.mass(x, 1), gap: (x) => format.mass(x, 1) };
    case 'days':
      return { value: (x) => format.number(x, 1), gap: (x) => text.days({ days: format.number(x, 1) }) };
    case 'income':
      return { value: (x) => format.money(Math.round(x)), gap: (x) => format.money(Math.round(x)) };
  }
}

/** The result of the comparison: which group has more, or that they are indistinguishable, and its reliability. */
export function compareFinding(view: ComparisonReport, names: GroupNames, format: Format): string {
  const { a, b, difference, fewest, inBoth, by } = view;
  if (inBoth > 0 && inBoth === a.n && inBoth === b.n) return text.equal;
  if (!difference) {
    const missing = (['a', 'b'] as const).filter((side) => view[side].n < 2);
    return [
      ...missing.map((side) => text.missing({ name: names[side], n: view[side].n })),
      text.nothing,
    ].join(' ');
  }
  const { gap } = measureWriter(by, format);
  const { low, mean, high } = difference;
  const unclear = low <= 0 && high >= 0;
  const less = mean < 0 && !unclear;
  const facts = {
    ...{ a: names.a, b: names.b, na: a.n, nb: b.n },
    ...(less ? { low: gap(-high), high: gap(-low) } : { low: gap(low), high: gap(high) }),
  };
  return [
    unclear ? text.same(facts) : text.more({ ...facts, by, less, amount: gap(Math.abs(mean)) }),
    ...(Math.min(a.n, b.n) < fewest ? [text.few({ fewest })] : []),
    ...(inBoth > 0 ? [text.inBoth({ n: inBoth })] : []),
  ].join(' ');
}
