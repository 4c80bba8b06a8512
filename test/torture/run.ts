/**
 * `npm run torture`: a desk that writes is killed, its power cut, its disk filled, its file spoilt, its exports and
 * imports cut short, its second place shared, the line of its stations broken, some hundred times. Prints a table; exit code 1 when an
 * acknowledged entry was lost or doubled or a book had no way back. Of the line, far more: `node test/torture/line/run.ts`.
 * `node test/torture/run.ts [--rounds 300] [--seed 1]`; with `--ledger` only the rounds of a book that is fed to a server.
 */
import { damageRounds } from './damage.ts';
import { fullDiskRounds } from './full-disk.ts';
import { interruptedRounds } from './interrupted.ts';
import { killRounds } from './kills.ts';
import { sharedPlaceRounds } from './shared-place.ts';
import { ledgerRounds } from './ledger/ledger-rounds.ts';
import { lineRounds } from './line/line-rounds.ts';
import { photoRounds } from './photos/photo-rounds.ts';
import { failed, tableOf } from './tally.ts';
import { temporaryDiskRounds } from './temporary-disk.ts';

const option = (name: string, usual: number): number => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? usual : Number(process.argv[at + 1]);
};
const rounds = option('rounds', 300);
const seed = option('seed', 1);
const started = Date.now();
const all = process.argv.includes('--ledger')
  ? await ledgerRounds(rounds, seed)
  : [
      ...(await killRounds(rounds, seed)),
      await fullDiskRounds(Math.ceil(rounds / 20), seed),
      ...(await damageRounds(rounds, seed)),
      await temporaryDiskRounds(Math.ceil(rounds / 20), seed),
      await interruptedRounds(Math.ceil(rounds / 5), seed),
      sharedPlaceRounds(rounds, seed),
      await photoRounds(Math.ceil(rounds / 5), seed),
      await lineRounds({ stations: 4, each: rounds, kills: Math.ceil(rounds / 100), seed }),
    ];
console.log(tableOf(all));
console.log(`Seed ${seed}, ${Math.round((Date.now() - started) / 1000)} s.`);
process.exitCode = failed(all) ? 1 : 0;
