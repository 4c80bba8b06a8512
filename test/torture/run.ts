/**
 * `npm run torture`: a desk that writes is killed, its power cut, its disk filled, its file spoilt, some hundred
 * times. Prints a table; exit code 1 when an acknowledged entry was lost or a book had no way back.
 * `node test/torture/run.ts [--rounds 300] [--seed 1]`
 */
import { damageRounds } from './damage.ts';
import { fullDiskRounds } from './full-disk.ts';
import { killRounds } from './kills.ts';
import { failed, tableOf } from './tally.ts';

const option = (name: string, usual: number): number => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1]);
};
const rounds = option('rounds', 300);
const seed = option('seed', 1);
const started = Date.now();
const all = [
  ...(await killRounds(rounds, seed)),
  await fullDiskRounds(Math.ceil(rounds / 20), seed),
  ...(await damageRounds(rounds, seed)),
];
console.log(tableOf(all));
console.log(`Seed ${seed}, ${Math.round((Date.now() - started) / 1000)} s.`);
process.exitCode = failed(all) ? 1 : 0;
