/** The rules that `npm run check:arrows` goes by find what they are there to find, imports of types included. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { cruise } from 'dependency-cruiser';
import { afterEach, expect, it } from 'vitest';
import rules from '../../arrows.config.js';

let house = '';
afterEach(() => rmSync(house, { recursive: true, force: true }));

/** Names of the rules that a small house breaks; each file is given with the one import that it holds. */
async function brokenRules(files: Record<string, string>): Promise<string[]> {
  house = mkdtempSync(join(tmpdir(), 'gambrel-arrows-'));
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(house, file)), { recursive: true });
    writeFileSync(join(house, file), text);
  }
  const { forbidden, options } = rules;
  const { output } = await cruise(['src'], {
    ruleSet: { forbidden },
    validate: true,
    ...options,
    tsConfig: undefined,
    baseDir: house,
  });
  return typeof output === 'string' ? [output] : output.summary.violations.map(({ rule }) => rule.name);
}

const THING = 'export interface Thing { a: number }\nexport const thing = 1;\n';
const typeOf = (path: string): string => `import type { Thing } from '${path}';\nexport type Mine = Thing;\n`;
const inVue = (path: string): string =>
  `<script setup lang="ts">\nimport type { Thing } from '${path}';\ndefineProps<{ a: Thing }>();\n</script>\n`;

it('lets a room use the rooms before it', async () => {
  expect(
    await brokenRules({
      'src/core/values/a.ts': THING,
      'src/core/yield/b.ts': typeOf('../values/a.ts'),
      'src/desk/desk.ts': typeOf('../core/yield/b.ts'),
    }),
  ).toEqual([]);
});

it.each([
  ['a later room', 'src/core/values/a.ts', '../yield/b.ts', 'src/core/values reaches up'],
  ['the root of its layer', 'src/desk/input/a.ts', '../desk.ts', 'src/desk/input reaches up'],
  ['the core, in the words of the trade', 'src/trade/a.ts', '../core/values/b.ts', 'src/trade reaches up'],
  ['a higher layer', 'src/core/values/a.ts', '../../desk/input/b.ts', 'src/core reaches up'],
  ['the demo', 'src/desk/input/a.ts', '../../demo/b.ts', 'src/desk reaches up'],
  ['the heavy core', 'src/ui/rail/a.ts', '../../core/balance/b.ts', 'the window uses the heavy core'],
  ['a room of its own making', 'src/desk/other/a.ts', './b.ts', 'src/desk has a folder that is no room'],
])('refuses a type from %s', async (_, file, path, rule) => {
  const target = join(dirname(file), path);
  expect(await brokenRules({ [file]: typeOf(path), [target]: THING })).toContain(rule);
});

it('refuses a type that a component takes from the desk', async () => {
  expect(
    await brokenRules({ 'src/ui/rail/A.vue': inVue('../../desk/input/b.ts'), 'src/desk/input/b.ts': THING }),
  ).toContain('src/ui reaches up');
});

it('refuses a circle of types', async () => {
  expect(
    await brokenRules({
      'src/core/values/a.ts': `${THING}${typeOf('./b.ts').replace('Thing }', 'Thing as Other }').replace('= Thing', '= Other')}`,
      'src/core/values/b.ts': `${THING}${typeOf('./a.ts').replace('Thing }', 'Thing as Other }').replace('= Thing', '= Other')}`,
    }),
  ).toContain('circle');
});
