import { BoxAndWiskers, BoxPlotController } from '@sgratzl/chartjs-chart-boxplot';
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
import { PointWithErrorBar, ScatterWithErrorBarsController } from 'chartjs-chart-error-bars';
import annotation from 'chartjs-plugin-annotation';

// Only the parts that our charts use: the whole library is half as large again as the rest of the window.
Chart.register(
  BoxAndWiskers,
  BoxPlotController,
  CategoryScale,
  Legend,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  PointWithErrorBar,
  ScatterController,
  ScatterWithErrorBarsController,
  Tooltip,
  annotation,
);

export { Chart };
