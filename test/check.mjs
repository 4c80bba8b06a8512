/**
 * `npm run check`: types, arrows, lint, formatting and workflow files. The types take about half of the time and one processor,
 * so the other checks run beside them, one after the other.
 */
import { spawn } from 'node:child_process';

const SIDES = [['types'], ['lint', 'arrows', 'format', 'workflows']];
/** Compiles the words, which the other checks read. */
const FIRST = ['words'];

/**
 * Runs `npm run check:NAME` and shows what it said when it has ended.
 * @param {string} name
 * @returns {Promise<boolean>} whether it found nothing
 */
function passes(name) {
  return new Promise((resolve) => {
    const npm = spawn(`npm run --silent check:${name}`, { shell: true, stdio: ['ignore', 'pipe', 'pipe'] });
    /** @type {Buffer[]} */
    const said = [];
    for (const stream of [npm.stdout, npm.stderr]) stream.on('data', (piece) => said.push(piece));
    npm.on('close', (code) => {
      process.stdout.write(Buffer.concat(said));
      console.log(`check:${name} ${code === 0 ? 'passed' : 'failed'}`);
      resolve(code === 0);
    });
  });
}

/** @param {readonly string[]} names */
async function allPass(names) {
  let passed = true;
  for (const name of names) passed = (await passes(name)) && passed;
  return passed;
}

const passed = (await allPass(FIRST)) && (await Promise.all(SIDES.map(allPass))).every(Boolean);
process.exitCode = passed ? 0 : 1;
