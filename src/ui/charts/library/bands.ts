import type { Chart, ChartType, Plugin } from 'chart.js';

/** A band behind the marks: part of the horizontal axis, across one row of the axis `yScaleID`. */
interface Band {
  type: 'box';
  yScaleID: string;
  xMin: number;
  xMax: number;
  yMin: number;
  yMax: number;
  backgroundColor: string;
}

/** A dashed level across the plot, with its label beside it on the right. Sizes in CSS pixels. */
interface Level {
  type: 'line';
  yMin: number;
  borderColor: string;
  borderDash: number[];
  borderWidth: number;
  label: { content: string; color: string; font: { size: number; family: string } };
}

/** What a plot says beside its data. */
interface Annotations {
  annotations: readonly (Band | Level)[];
}

declare module 'chart.js' {
  // eslint-disable-next-line @typescript-eslint/no-unused-vars -- An interface is only extended under the same parameters.
  interface PluginOptionsByType<TType extends ChartType> {
    annotation: Annotations;
  }
}

const GAP = 8;

export const bands: Plugin<ChartType, Annotations> = {
  id: 'annotation',
  beforeDatasetsDraw: (chart, _, { annotations = [] }) => {
    for (const one of annotations) if (one.type === 'box') drawBand(chart, one);
  },
  afterDatasetsDraw: (chart, _, { annotations = [] }) => {
    for (const one of annotations) if (one.type === 'line') drawLevel(chart, one);
  },
};

function drawBand({ ctx, scales }: Chart, { yScaleID, xMin, xMax, yMin, yMax, backgroundColor }: Band): void {
  const [across, rows] = [scales.x, scales[yScaleID]];
  if (!across || !rows) return;
  const [left, right] = [across.getPixelForValue(xMin), across.getPixelForValue(xMax)];
  const [top, bottom] = [rows.getPixelForValue(yMin), rows.getPixelForValue(yMax)];
  ctx.save();
  ctx.fillStyle = backgroundColor;
  ctx.fillRect(left, top, right - left, bottom - top);
  ctx.restore();
}

function drawLevel({ ctx, scales, chartArea: { left, right } }: Chart, level: Level): void {
  const y = scales.y?.getPixelForValue(level.yMin);
  if (y === undefined) return;
  const { content, color, font } = level.label;
  ctx.save();
  ctx.strokeStyle = level.borderColor;
  ctx.lineWidth = level.borderWidth;
  ctx.setLineDash(level.borderDash);
  ctx.beginPath();
  ctx.moveTo(left, y);
  ctx.lineTo(right, y);
  ctx.stroke();
  ctx.fillStyle = color;
  ctx.font = `700 ${font.size}px ${font.family}`;
  ctx.textBaseline = 'middle';
  ctx.fillText(content, right + GAP, y);
  ctx.restore();
}
