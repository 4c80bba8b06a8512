/** What a load has to reach, beside its curve: with bear or boar in it, no lower figure is named. */
import { describe, expect, it } from 'vitest';
import type { LoadPage } from '../../../../src/bridge/contract.ts';
import { linesOf } from '../../plots.ts';
import { loadStory } from '../../../../src/ui/charts/smokehouse/load-story.ts';
import { reachLines } from '../../../../src/ui/smokehouse/loads/reach-lines.ts';

const load = (hostF: number | null): LoadPage =>
  ({
    name: 'L26-001',
    hosts: hostF === null ? [] : ['Black bear'],
    readings: 2,
    target: {
      rows: [
        { f: 155, seconds: 28 },
        { f: 156, seconds: 22 },
        { f: 157, seconds: 17 },
        { f: 158, seconds: 14 },
        { f: 159, seconds: 0 },
      ],
      atOnceF: 159,
      hostF,
      comeUp: { fromF: 50, toF: 130, minutes: 360 },
      cooling: {
        code: 'fast',
        name: '',
        stages: [{ fromF: 130, toF: 80, minutes: 90 }],
        confirmed: true,
      },
      source: { source: 'A table' },
    },
    curves: [
      {
        probe: 'P1',
        highestF: 162,
        points: [
          { at: '2026-10-20T15:00:00.000Z', f: 40 },
          { at: '2026-10-20T19:00:00.000Z', f: 162 },
        ],
      },
    ],
  }) as unknown as LoadPage;
const findingOf = (hostF: number | null) => loadStory(load(hostF), (at) => at).finding;

describe('a load of deer', () => {
  it('has the rows of the table, and the one without a hold time', () => {
    expect(reachLines(load(null))).toEqual([
      '156°F for 22 s',
      '157°F for 17 s',
      '158°F for 14 s',
      '159°F: no time needed',
      '130°F to 80°F in 1 hour 30 min',
    ]);
    expect(findingOf(null)).toContain('call for 159°F');
  });
});

describe('a load with bear in it', () => {
  it('has the figure of the bear alone', () => {
    expect(reachLines(load(166))).toEqual([
      'Black bear in this load: at least 166°F',
      '130°F to 80°F in 1 hour 30 min',
    ]);
    expect(findingOf(166)).toContain('call for 166°F');
    expect(findingOf(166)).not.toContain('159');
  });
});

it('draws no line where nothing was read', () => {
  const at = (minutes: number): string => new Date(Date.parse('2026-10-20T15:00:00.000Z') + minutes * 60_000).toISOString();
  const points = [0, 5, 50, 55].map((minutes) => ({ at: at(minutes), f: 40 + minutes }));
  const missing = [{ code: 'log.gap', at: at(5), with: { minutes: 45, limit: 10 } }];
  const judged = (found: object[]) => ({ cook: { answer: 'not-proven', notMet: [], missing: found }, cooling: { answer: 'not-proven', notMet: [], missing: [] } });
  const curve = (now: object | null): (number | null)[] | undefined => {
    const page = { ...load(null), now, curves: [{ probe: 'P1', highestF: 95, points }] } as unknown as LoadPage;
    const line = linesOf(loadStory(page, (one) => one)).find(({ ink }) => ink === 'spruce');
    return line?.points.map((point) => point && point.y);
  };
  expect(curve(judged([]))).toEqual([40, 45, 90, 95]);
  expect(curve(judged(missing))).toEqual([40, 45, null, 90, 95]);
  expect(curve(null)).toEqual([40, 45, 90, 95]);
}); // prettier-ignore
