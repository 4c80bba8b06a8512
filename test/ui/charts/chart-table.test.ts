// @vitest-environment happy-dom
/** The table behind a chart: columns of numbers are right-aligned, as in every other table. */
import { expect, it } from 'vitest';
import ChartTable from '../../../src/ui/charts/ChartTable.vue';
import { mountPart } from '../mount-part.ts';

it('aligns numbers to the right, and names and days to the left', () => {
  const table = {
    head: ['Species', 'Day', 'Animals', 'Share', 'Nothing'],
    rows: [
      ['Elk', 'Mon, Nov 9', '12', '61.0%', ''],
      ['Moose', 'Tue, Nov 10', '1', '', ''],
    ],
    plain: [
      ['Elk', '2026-11-09', 12, 0.61, null],
      ['Moose', '2026-11-10', 1, null, null],
    ],
  };
  const shown = mountPart(ChartTable, { props: { table, caption: 'Take-home' } });
  for (const cells of [shown.findAll('th'), shown.findAll('tbody tr')[1]?.findAll('td') ?? []])
    expect(cells.map((cell) => cell.classes('number'))).toEqual([false, false, true, true, false]);
});
