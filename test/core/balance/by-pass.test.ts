/** A network of a textbook, solved exactly; its reconciled flows are among the published results in `test/outside`. */
import { describe, expect, it } from 'vitest';
import { reconcile, type Flow } from '../../../src/core/balance/balance.ts';

const ENDS = [
  [null, 'splitter'],
  ['splitter', 'exchanger'],
  ['splitter', 'valve'],
  ['exchanger', 'mixer'],
  ['valve', 'mixer'],
  ['mixer', null],
] as const;
const READINGS = [101.91, 64.45, 34.65, 64.2, 36.44, 98.88];
const nodes = ['splitter', 'exchanger', 'valve', 'mixer'];
const flows = ENDS.map(([from, to], i): Flow => ({
  id: `${i + 1}`,
  from,
  to,
  grams: READINGS[i] ?? NaN,
  sd: 1,
}));

describe('heat exchanger with by-pass (readings: Narasimhan & Jordache, 2000)', () => {
  it('adjusts by x = y − VA′(AVA′)⁻¹Ay', () => {
    const { flows: solved, imbalances, chiSquare } = reconcile({ nodes, flows });
    [-1.69, 0.05, 1.07, 0.3, -0.72, 1.34].forEach((by, i) => expect(solved[i]?.adjusted).toBeCloseTo(by, 9));
    [2.81, 0.25, -1.79, 1.76].forEach((gap, i) => expect(imbalances[i]?.grams).toBeCloseTo(gap, 9));
    expect(chiSquare).toBeCloseTo(6.4075, 10);
  });

  it('without flows 3 to 5 only 1 and 6 check each other', () => {
    const open = flows.map((flow, i) => (i >= 2 && i <= 4 ? { ...flow, grams: null } : flow));
    const mean = (101.91 + 98.88) / 2;
    const solved = reconcile({ nodes, flows: open }).flows;
    [mean, 64.45, mean - 64.45, 64.45, mean - 64.45, mean].forEach((grams, i) =>
      expect(solved[i]?.grams).toBeCloseTo(grams, 10),
    );
  });

  it('a scale with three times the SD takes nine times the share', () => {
    const gap: Flow[] = [
      { id: 'in', from: null, to: 'rail', grams: 110, sd: 3 },
      { id: 'out', from: 'rail', to: null, grams: 100, sd: 1 },
    ];
    const [into, out] = reconcile({ nodes: ['rail'], flows: gap }).flows;
    expect([into?.adjusted, out?.adjusted]).toEqual([expect.closeTo(-9, 10), expect.closeTo(1, 10)]);
  });
});
