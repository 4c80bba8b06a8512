/** The check of the workflow files finds what it is there to find. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { languageFaults } from './github-language.mjs';
import { ruleFaults } from './own-rules.mjs';

const ROOT = resolve(import.meta.dirname, '../..');
const GOOD = readFileSync(join(ROOT, '.github/workflows/tests.yml'), 'utf8');
const faulty = (from: string | RegExp, to: string) => {
  const text = GOOD.replace(from, to);
  if (text === GOOD) throw new Error(`The workflow does not hold ${String(from)}`);
  return text;
};

describe('what GitHub would refuse', () => {
  it.each([
    ['a word that does not exist', 'timeout-minutes', 'time-out', /Unexpected value 'time-out'/],
    ['a context that does not exist', 'matrix.system', 'matirx.system', /Unrecognized named-value: 'matirx'/],
    ['a job that waits for one that does not exist', 'timeout-minutes', 'needs: [nothing]\n    timeout-minutes', /nothing/], // prettier-ignore
  ])('%s', async (_name, from, to, message) => {
    expect(await languageFaults('tests.yml', GOOD)).toEqual([]);
    const faults = await languageFaults('tests.yml', faulty(from, to));
    expect(faults.join('\n')).toMatch(message);
  });
});

describe('what we refuse', () => {
  it.each([
    ['an action by its tag', /@[0-9a-f]{40} # v7\.0\.1/, '@v7', /:\d+: an action is named by its digest/],
    ['a digest without its version', / # v7\.0\.1/, '', /:\d+: an action is named by its digest/],
    ['more rights', 'contents: read', 'contents: write', /may read the content/],
    ['rights of one job', 'timeout-minutes', 'permissions: { issues: write }\n    timeout-minutes', /rights of its own/], // prettier-ignore
    ['a job without an end', /\n {4}timeout-minutes: \d+/, '', /no limit of time/],
    ['a system that changes', 'windows-2025', 'windows-latest', /windows-latest becomes another/],
    [
      'a key that stays',
      '\n          persist-credentials: false',
      '\n          fetch-depth: 1',
      /leaves its key/,
    ],
    ['runs that pile up', 'cancel-in-progress: true', 'cancel-in-progress: false', /a newer run ends/],
    ['rights for foreign code', 'pull_request:', 'pull_request_target:', /pull_request_target/],
    ['text of others in a command', 'npm test', 'echo "${{ github.head_ref }}"', /from an expression/],
    ['a command that is gone', 'npm run check', 'npm run chekc', /no npm script called chekc/],
    ['a file that is gone', 'npm run check', 'node test/nothing.ts', /no file test\/nothing\.ts/],
  ])('%s', (_name, from, to, message) => {
    expect(ruleFaults('tests.yml', GOOD, ROOT)).toEqual([]);
    expect(ruleFaults('tests.yml', faulty(from, to), ROOT).join('\n')).toMatch(message);
  });
});

it('all of ours pass', () => {
  const { status, stderr } = spawnSync(process.execPath, ['test/workflows/lint.mjs'], {
    cwd: ROOT,
    encoding: 'utf8',
  });
  expect([stderr, status]).toEqual(['', 0]);
});
