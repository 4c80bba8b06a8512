/** A measure of one batch after another, with the lines that it is held against. */
import { FONT_SIZE, levelNameAxis, type percentAxis } from './axes.ts';
import type { ChartColors } from './colors.ts';

/** Room on the right for the labels of the lines, px. */
const LABEL_ROOM = 112;

interface Marks {
  /** What is measured. */
  label: string;
  /** Names along the axis, in the order of `values`. */
  names: string[];
  values: number[];
  /** Whether a mark is out of the ordinary. */
  out: (at: number) => boolean;
  lines: readonly { value: number; label: string }[];
}

export function drawLimitLines(
  { label, names, values, out, lines }: Marks,
  colors: ChartColors,
  y: ReturnType<typeof percentAxis> & { suggestedMin: number; suggestedMax: number },
) {
  const font = { size: FONT_SIZE, family: colors.font };
  return {
    type: 'line' as const,
    data: {
      labels: names,
      datasets: [
        {
          type: 'line' as const,
          label,
          data: values,
          borderColor: colors.steel,
          borderWidth: 1.5,
          pointStyle: values.map((_, at) => (out(at) ? 'rectRot' : 'circle')),
          pointRadius: values.map((_, at) => (out(at) ? 10 : 6)),
          pointHoverRadius: 10,
          pointBackgroundColor: values.map((_, at) => (out(at) ? colors.ink : colors.spruce)),
          pointBorderColor: colors.card,
        },
      ],
    },
    options: {
      layout: { padding: { right: LABEL_ROOM } },
      scales: {
        x: levelNameAxis(colors, names),
        y: { ...y, grace: '10%' },
      },
      plugins: {
        annotation: {
          annotations: lines.map((line) => ({
            type: 'line' as const,
            yMin: line.value,
            borderColor: colors.muted,
            borderDash: [6, 5],
            borderWidth: 1.5,
            // Beside the plot: on it the label would cover the newest mark.
            label: { content: line.label, color: colors.muted, font },
          })),
        },
      },
    },
  };
}
