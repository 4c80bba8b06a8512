/**
 * `npm run bench [-- --only PART] [-- --json FILE] [-- --compare OLD.json]`: how fast the house is on the book of twenty large seasons, each
 * figure beside what would be used instead, in the same run. Nothing here is a test: a busy machine is no defect.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { deskOn } from './open-desk.ts';
import { reportOf, slower, tableOf, type Report } from './report.ts';
import { seasonViews } from './season-views.ts';
import { timed, type Figure, type Measure } from './timing.ts';

const { values: asked } = parseArgs({
  options: {
    only: { type: 'string' },
    json: { type: 'string' },
    compare: { type: 'string' },
    seasons: { type: 'string' },
  },
});
const seasons = Number(asked.seasons ?? 20);
const figures: Figure[] = [];
const wanted = (name: string): boolean => asked.only === undefined || name.includes(asked.only);

async function measure(measures: readonly Measure[]): Promise<void> {
  for (const one of measures.filter(({ name }) => wanted(name))) {
    const figure = await timed(one);
    figures.push(figure);
    console.error(`${figure.name}: ${figure.value.toFixed(2)} ms`);
  }
}

const desk = await deskOn(seasons);
const views = seasonViews(desk);
await measure(views.measures);
views.close();
desk.close();

const report = reportOf(figures, {});
const old =
  asked.compare === undefined ? undefined : (JSON.parse(readFileSync(asked.compare, 'utf8')) as Report);
console.log(
  `\n${report.machine}, Node ${report.versions.node}, ${report.at.slice(0, 10)}, ${report.commit}\n`,
);
console.log(tableOf(report, old));
if (asked.json !== undefined) writeFileSync(asked.json, `${JSON.stringify(report, null, 1)}\n`);
const worse = old ? slower(report, old) : [];
for (const { name } of worse) console.log(`slower than before: ${name}`);
const missed = figures.filter(({ holds }) => holds === false);
console.log(
  missed.length === 0
    ? '\nEvery bar holds.'
    : `\n${missed.length} of ${figures.length} figures miss their bar.`,
);
process.exitCode = missed.length === 0 && worse.length === 0 ? 0 : 1;
