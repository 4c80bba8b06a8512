/** What we ask of our workflows beyond what GitHub accepts: least rights, fixed actions, limits, commands that exist. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';

/** An action by the digest of its commit, with the version that it belongs to: a tag can be moved to other code. */
const PINNED = /^\s*(?:- )?uses: [\w./-]+@[0-9a-f]{40} # v\d+\.\d+\.\d+$/;

/**
 * @param {string} name file name
 * @param {string} text content, which GitHub accepts
 * @param {string} root folder of the project, where commands are looked for
 * @returns {string[]} one line for each fault
 */
export function ruleFaults(name, text, root) {
  const workflow = parse(text);
  const lines = text.split('\n');
  return [
    ...lines.flatMap((line, at) =>
      /^\s*(- )?uses:/.test(line) && !PINNED.test(line)
        ? [`${name}:${at + 1}: an action is named by its digest, with its version behind it`]
        : [],
    ),
    ...(JSON.stringify(workflow.permissions) === '{"contents":"read"}'
      ? []
      : [`${name}: the whole workflow may read the content and nothing else`]),
    ...(workflow.concurrency?.group && workflow.concurrency['cancel-in-progress'] === true
      ? []
      : [`${name}: a newer run ends the one before it`]),
    ...('pull_request_target' in Object(workflow.on)
      ? [`${name}: foreign code must not run with our rights (pull_request_target)`]
      : []),
    ...Object.entries(workflow.jobs).flatMap(([job, content]) =>
      jobFaults(content, root).map((fault) => `${name}, ${job}: ${fault}`),
    ),
  ];
}

function jobFaults(job, root) {
  const systems = [job['runs-on'], ...Object.values(job.strategy?.matrix ?? {}).flat()];
  return [
    ...(Number.isInteger(job['timeout-minutes']) ? [] : ['there is no limit of time']),
    ...(job.permissions ? ['it takes rights of its own'] : []),
    ...systems
      .filter((system) => /-latest$/.test(system))
      .map((system) => `${system} becomes another system without our doing`),
    ...(job.steps ?? []).flatMap((step) => stepFaults(step, root)),
  ];
}

function stepFaults({ uses = '', with: given = {}, run = '' }, root) {
  const faults = [];
  if (uses.startsWith('actions/checkout@') && given['persist-credentials'] !== false)
    faults.push('the checkout leaves its key behind (persist-credentials)');
  if (run.includes('${{')) faults.push('a command is put together from an expression: hand it over as env');
  const scripts = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')).scripts;
  for (const [, script] of run.matchAll(/\bnpm run (?:--?\w+ )*([\w:-]+)/g))
    if (!(script in scripts)) faults.push(`there is no npm script called ${script}`);
  for (const [file] of run.matchAll(/(?<![\w/.-])(?:test|electron)\/[\w./-]+/g))
    if (!existsSync(join(root, file))) faults.push(`there is no file ${file}`);
  return faults;
}
