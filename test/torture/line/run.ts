/** `node test/torture/line/run.ts [--stations 4] [--each 2500] [--kills 5] [--seed 1]`: prints the table; exit code 1 if an entry was lost or doubled. */
import { failed, tableOf } from '../tally.ts';
import { lineRounds } from './line-rounds.ts';

const option = (name: string, usual: number): number => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1]);
};
const started = Date.now();
const counted = await lineRounds({
  stations: option('stations', 4),
  each: option('each', 2500),
  kills: option('kills', 5),
  seed: option('seed', 1),
});
console.log(tableOf([counted]));
console.log(`${Math.round((Date.now() - started) / 1000)} s.`);
process.exitCode = failed([counted]) ? 1 : 0;
