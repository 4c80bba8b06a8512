import type { SeasonLook } from '../../bridge/contract.ts';
import { seasonText as text } from '../texts/en-season.ts';
import type { Format } from '../texts/format.ts';
import { FONT_SIZE, nameAxis, percentAxis } from './axes.ts';
import type { ChartColours } from './colours.ts';

type Batch = SeasonLook['batches'][number];
type Measure = 'target' | 'planned' | 'weighedIn' | 'tested';

/** The batches that the control limits are about, in the order of the tests. */
export function testedBatches(batches: readonly Batch[]): Batch[] {
  return batches.filter((batch) => batch.tested !== null);
}

/** The four figures of each batch as four shapes, and the limits within which tests vary by chance. */
export function drawFat(look: SeasonLook, colours: ChartColours, format: Format) {
  const batches = look.batches;
  const font = { size: FONT_SIZE, family: colours.font };
  const outside = new Set(look.control?.outside.map((at) => testedBatches(batches)[at]?.id));
  const marks = (measure: Measure, pointStyle: string, radius: number, fill: string, edge: string) => ({
    type: 'line' as const,
    label: text[measure],
    data: batches.map((batch) => batch[measure]),
    showLine: false,
    pointStyle,
    pointRadius: radius,
    pointHoverRadius: radius + 3,
    pointBorderWidth: 2,
    backgroundColor: fill,
    borderColor: edge,
  });
  const tested = marks('tested', 'rectRot', 8, colours.lean, colours.card);
  const limit = (value: number, label: string) => ({
    type: 'line' as const,
    yMin: value,
    yMax: value,
    borderColor: colours.muted,
    borderDash: [6, 5],
    borderWidth: 1.5,
    label: {
      display: true,
      content: label,
      position: 'end' as const,
      backgroundColor: colours.card,
      color: colours.muted,
      font,
      padding: 3,
    },
  });
  const control = look.control;
  return {
    type: 'line' as const,
    data: {
      labels: batches.map((batch) => batch.name),
      datasets: [
        marks('target', 'line', 14, 'transparent', colours.ink),
        marks('planned', 'triangle', 7, colours.card, colours.steel),
        marks('weighedIn', 'circle', 6, colours.spruce, colours.card),
        {
          ...tested,
          pointRadius: batches.map((batch) => (outside.has(batch.id) ? 12 : 8)),
          pointBorderColor: batches.map((batch) => (outside.has(batch.id) ? colours.blaze : colours.card)),
        },
      ],
    },
    options: {
      interaction: { mode: 'nearest' as const, axis: 'xy' as const, intersect: true },
      scales: {
        x: {
          ...nameAxis(
            colours,
            batches.map((batch) => batch.name),
          ),
          ticks: { color: colours.ink, font },
        },
        y: { ...percentAxis(colours, text.fatShare), grace: '10%', beginAtZero: true },
      },
      plugins: {
        legend: {
          display: true,
          position: 'top' as const,
          align: 'start' as const,
          labels: { usePointStyle: true, color: colours.ink, font, padding: 16 },
        },
        annotation: {
          annotations: control
            ? [
                limit(control.upper, text.upperLimit(format.share(control.upper))),
                limit(control.centre, text.centre(format.share(control.centre))),
                ...(control.lower > 0
                  ? [limit(control.lower, text.lowerLimit(format.share(control.lower)))]
                  : []),
              ]
            : [],
        },
      },
    },
  };
}
