import {
  BarController,
  BarElement,
  Chart,
  Filler,
  Legend,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
} from 'chart.js';
import { Flow, SankeyController } from 'chartjs-chart-sankey';

// Only what the plots use: each further part is fetched by every window.
Chart.register(
  BarController,
  BarElement,
  Filler,
  Flow,
  Legend,
  LinearScale,
  LineController,
  LineElement,
  PointElement,
  SankeyController,
);

export { Chart };
