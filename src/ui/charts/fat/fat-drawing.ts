import type { FatBatch } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import { FONT_SIZE, levelNameAxis, percentAxis } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';

type Measure = 'target' | 'planned' | 'weighedIn' | 'tested';

/** The four figures of each batch as four shapes. */
export function drawFat(batches: readonly FatBatch[], colors: ChartColors) {
  const font = { size: FONT_SIZE, family: colors.font };
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
        marks('target', 'line', 14, 'transparent', colors.ink),
        marks('planned', 'triangle', 11, 'transparent', colors.ink),
        marks('weighedIn', 'circle', 6, colors.spruce, colors.card),
        marks('tested', 'rectRot', 8, colors.ink, colors.card),
      ],
    },
    options: {
      interaction: { mode: 'nearest' as const, axis: 'xy' as const, intersect: true },
      scales: {
        x: levelNameAxis(
          colors,
          batches.map((batch) => batch.name),
        ),
        y: { ...percentAxis(colors, text.share), grace: '10%', beginAtZero: true },
      },
      plugins: {
        legend: {
          display: true,
          position: 'top' as const,
          align: 'start' as const,
          labels: { usePointStyle: true, color: colors.ink, font, padding: 16 },
        },
      },
    },
  };
}
