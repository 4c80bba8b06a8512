import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { text } from '../../../src/words/compiled/window/terms.ts';
import { termSources } from '../../../src/ui/terms/terms.ts';

const meanings = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../../src/words/compiled/handbook/pages/en-US.json'), 'utf8'),
) as Record<string, string>;
const terms = Object.entries(termSources).map(
  ([code, source]) =>
    [
      code,
      {
        name: text.of[code as keyof typeof termSources].name,
        says: meanings[`term.${code}`] ?? '',
        source: meanings[`term.from.${source}`] ?? '',
      },
    ] as const,
);
const UI = join(import.meta.dirname, '../../../src/ui');
const sources = globSync('**/*.{vue,ts}', { cwd: UI }).map((file) => readFileSync(join(UI, file), 'utf8'));

/** Codes used by screens: `<Term of="trim">` and `<WordsHere :of="['lot', 'suet']">`. */
const asked = new Set(
  sources.flatMap((source) => [
    ...[...source.matchAll(/<Term\b[^>]*?\sof="([^"]+)"/g)].map((found) => found[1] ?? ''),
    ...[...source.matchAll(/<WordsHere\b[^>]*?:of="\[([^\]]+)\]"/g)].flatMap((found) =>
      [...(found[1] ?? '').matchAll(/'([^']+)'/g)].map((code) => code[1] ?? ''),
    ),
  ]),
);

describe('trade terms', () => {
  it('are all used, and all used ones are explained', () =>
    expect([...asked].sort()).toEqual(terms.map(([code]) => code).sort()));

  it.each(terms)('%s has a short explanation and a source', (_, { name, says, source }) => {
    expect(name).not.toBe('');
    expect(source).not.toBe('');
    expect(says).not.toBe('');
    expect(says.split(/(?<=[.!?]) /).length).toBeLessThanOrEqual(3);
    expect(says.length).toBeLessThanOrEqual(240);
  });

  it('have unique names', () => {
    const names = terms.map(([, { name }]) => name);
    expect(new Set(names).size).toBe(names.length);
  });

  it('avoid the terms of statistics', () => {
    const files = globSync(['ui/texts/**/*.ts', 'words/en-US/**/*.arb'], { cwd: join(UI, '..') });
    const words = files.map((file) => readFileSync(join(UI, '..', file), 'utf8'));
    const learned = /chi-?square|p-?value|posterior|likelihood|logit|residual|covariance|bayes/i;
    for (const text of words) expect(learned.exec(text)?.[0]).toBeUndefined();
  });
});
