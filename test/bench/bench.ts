/**
 * `npm run bench [-- --only PART] [-- --json FILE] [-- --compare OLD.json]`: how fast the house is on the book of twenty large seasons, each
 * figure beside what would be used instead, in the same run. Nothing here is a test: a busy machine is no defect.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { aloneWork } from './alone-work.ts';
import { coreWork } from './core-work.ts';
import { deskWork } from './desk-work.ts';
import { fileWork } from './file-work.ts';
import { growth } from './growth.ts';
import { ledgerWork } from './ledger-work.ts';
import { loadWork } from './load-work.ts';
import { deskOn } from './open-desk.ts';
import { reportOf, slower, tableOf, type Report } from './report.ts';
import { seasonViews } from './season-views.ts';
import { smokehouseWork } from './smokehouse-work.ts';
import { startWork } from './start-work.ts';
import { stationWork } from './station-work.ts';
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

async function measure(measures: readonly Measure[]): Promise<void> {
  for (const one of measures) told(await timed(one));
}

const told = (figure: Figure): void => {
  figures.push(figure);
  console.error(`${figure.name}: ${figure.value.toFixed(2)} ${figure.unit}`);
};

/** The parts of a run, so that one can be asked for alone. */
const PARTS: Readonly<Record<string, () => Promise<void>>> = {
  core: async () => measure(await coreWork()),
  desk: async () => {
    const desk = await deskOn(seasons);
    const work = await deskWork(desk);
    await measure(work.measures);
    work.close();
    desk.close();
  },
  smokehouse: async () => {
    const desk = await deskOn(seasons);
    const work = await smokehouseWork(desk);
    await measure(work.measures);
    work.close();
    desk.close();
  },
  season: async () => {
    const desk = await deskOn(seasons);
    const views = await seasonViews(desk);
    await measure(views.measures);
    views.close();
    desk.close();
  },
  files: async () => {
    const desk = await deskOn(seasons);
    const work = fileWork(desk);
    await measure(work.measures);
    work.close();
    desk.close();
  },
  growth: async () => (await growth()).forEach(told),
  start: async () => (await startWork(seasons)).forEach(told),
  alone: async () => (await aloneWork()).forEach(told),
  stations: async () => (await stationWork(seasons)).forEach(told),
  ledger: async () => (await ledgerWork(seasons)).forEach(told),
  load: async () => (await loadWork(seasons)).forEach(told),
};
for (const [name, run] of Object.entries(PARTS))
  if (asked.only === undefined || asked.only === name) await run();

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
