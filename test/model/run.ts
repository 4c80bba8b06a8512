/**
 * `npm run model`: random histories of a shop's days at a real desk, against a model of what a shop may do.
 * `node test/model/run.ts [--steps 100000] [--seed 1] [--length 250] [--history N] [--replay JSON] [--broken]`
 */
import { demoBook } from '../../src/demo/copy.ts';
import { demoKeptAt } from '../demo-copy.ts';
import { BROKEN, findBroken } from './broken.ts';
import { AT_THE_BEGINNING, DRIVEN } from './driven.ts';
import { historyOf, run, type Drawn } from './history.ts';
import { shorten, told } from './shorten.ts';
import { Tally } from './tally.ts';

const value = (name: string): string | undefined => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? undefined : process.argv[at + 1];
};
const number = (name: string, usual: number): number => Number(value(name) ?? usual);

const wanted = number('steps', 100_000);
const seed = number('seed', 1);
const length = number('length', 250);
const replay = value('replay');
const only = value('history');

if (replay !== undefined) {
  const history = JSON.parse(replay) as Drawn[];
  const ran = await run(history, { compareEvery: 1 });
  console.log(
    ran.wrong === null ? `All ${history.length} steps as the model has it.` : told({ history, ran }),
  );
  process.exitCode = ran.wrong === null ? 0 : 1;
} else if (process.argv.includes('--broken')) {
  let missed = 0;
  console.log(`${'rule broken on purpose'.padEnd(62)} found after steps`);
  for (const rule of BROKEN.filter(({ what }) => what.includes(value('broken') ?? ''))) {
    const { steps, wrong } = await findBroken(rule, seed, length);
    if (wrong === null) missed += 1;
    const noticed = (wrong ?? '').split('\n').slice(0, 2).join(' ').slice(0, 110);
    console.log(`${rule.what.padEnd(62)} ${wrong === null ? `not in ${steps}` : steps}  ${noticed}`);
  }
  process.exitCode = missed === 0 ? 0 : 1;
} else {
  const tally = new Tally();
  const demo = demoBook(demoKeptAt());
  const started = Date.now();
  for (let n = only === undefined ? 0 : Number(only); tally.steps < wanted; n++) {
    const history = historyOf(seed, n, length);
    const ran = await run(history, { tally, demo });
    tally.histories += 1;
    if (ran.wrong !== null) {
      console.log(`History ${n} of seed ${seed} fails at step ${ran.at + 1}: ${ran.wrong}\nShortening …`);
      console.log(told(await shorten(history, ran, { demo })));
      process.exitCode = 1;
      break;
    }
    if (tally.histories % 20 === 0) {
      const seconds = (Date.now() - started) / 1000;
      console.log(`${tally.steps} steps, ${Math.round(tally.steps / seconds)} a second`);
    }
    if (only !== undefined) break;
  }
  console.log(tally.table());
  const never = [...DRIVEN].filter(
    (call) => !AT_THE_BEGINNING.includes(call) && !tally.calls.get(call)?.done,
  );
  console.log(`Never carried out: ${never.join(', ') || 'none'}`);
  console.log(`Seed ${seed}, ${Math.round((Date.now() - started) / 1000)} s.`);
}
