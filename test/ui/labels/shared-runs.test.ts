import { describe, expect, it } from 'vitest';
import type { LabelRun, PackageLabel } from '../../../src/ui/labels/package-label.ts';
import { sharedRuns } from '../../../src/ui/labels/shared-runs.ts';

const run = (key: string, copies: number, batch: string | null, ticket = '26-0001'): LabelRun => ({
  key, copies, label: { ticket, batch, hunter: 'Ann', product: 'Steaks' } as PackageLabel,
}); // prettier-ignore
const row = (count: number, batch: string | null) => ({
  product: 'Steaks',
  count,
  grams: 1000,
  batch,
  places: [],
});
const animal = {
  ticket: '26-0001',
  packages: [row(5, null), row(3, null), row(4, 'G26-001')],
  sharers: [
    { hunterId: 1, name: 'Ann', counts: [3, 1, 2] },
    { hunterId: 2, name: 'Ben', counts: [2, 2, 2] },
  ],
};

describe('labels of a shared animal', () => {
  it('name each hunter on the assigned number of packages, and label every package', () => {
    const runs = [
      run('cut 1', 5, null),
      run('cut 2', 3, null),
      run('batch 1', 3, 'G26-001'),
      run('batch 2', 1, 'G26-001'),
    ];
    const said = sharedRuns(runs, animal).map(({ key, copies, label }) => [key, copies, label.hunter]);
    expect(said).toEqual([
      ['cut 1 1', 3, 'Ann'],
      ['cut 1 2', 2, 'Ben'],
      ['cut 2 1', 1, 'Ann'],
      ['cut 2 2', 2, 'Ben'],
      ['batch 1 1', 2, 'Ann'],
      ['batch 1 2', 1, 'Ben'],
      ['batch 2 2', 1, 'Ben'],
    ]);
  });

  it('are unchanged for a single hunter, and for other tickets', () => {
    const runs = [run('cut 1', 5, null), run('other', 2, 'G26-001', '26-0002')];
    expect(sharedRuns(runs, { ...animal, sharers: [] })).toEqual(runs);
    expect(sharedRuns(runs, animal).at(-1)).toEqual(runs[1]);
  });
});
