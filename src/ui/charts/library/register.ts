import {
  CategoryScale,
  Chart,
  Legend,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  ScatterController,
  Tooltip,
} from 'chart.js';
import { bands } from './bands.ts';
import { BoxPlot, BoxShape } from './box-plot.ts';
import { ScatterWithErrorBars } from './error-bars.ts';

// Only the parts that our charts use, and our own few shapes: packages of shapes bring every kind of chart with them.
Chart.register(
  BoxPlot,
  BoxShape,
  CategoryScale,
  Legend,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  ScatterController,
  ScatterWithErrorBars,
  Tooltip,
  bands,
);

export { Chart };
