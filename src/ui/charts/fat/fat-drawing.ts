import type { FatBatch } from '../../../bridge/contract.ts';
import { fatText as text } from '../../texts/en/season/fat.ts';
import { FONT_SIZE, nameAxis, percentAxis } from '../drawing/axes.ts';
import type { ChartColours } from '../drawing/colours.ts';

type Measure = 'target' | 'planned' | 'weighedIn' | 'tested';

/** The four figures of each batch as four shapes. */
export function drawFat(batches: readonly FatBatch[], colours: ChartColours) {
  const font = { size: FONT_SIZE, family: colours.font };
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
  return {
    type: 'line' as const,
    data: {
      labels: batches.map((batch) => batch.name),
      datasets: [
        marks('target', 'line', 14, 'transparent', colours.ink),
        marks('planned', 'triangle', 11, 'transparent', colours.ink),
        marks('weighedIn', 'circle', 6, colours.spruce, colours.card),
        marks('tested', 'rectRot', 8, colours.lean, colours.card),
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
        y: { ...percentAxis(colours, text.share), grace: '10%', beginAtZero: true },
      },
      plugins: {
        legend: {
          display: true,
          position: 'top' as const,
          align: 'start' as const,
          labels: { usePointStyle: true, color: colours.ink, font, padding: 16 },
        },
      },
    },
  };
}
