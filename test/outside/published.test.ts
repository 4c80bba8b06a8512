/** Holds ours against every published result, and every result against itself: a tolerance must catch its mistake. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { COPIED, countOfResults, RESULTS } from './all.ts';
import { digitsAgreeing, inWords, isNear } from './nearness.ts';
import type { Row } from './result.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const rows: Row[] = [];

afterAll(() => {
  const folder = process.env.OUTSIDE_ROWS ?? join(root, 'out');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'outside.json'), JSON.stringify(rows, null, 1));
});

for (const [area, results] of Object.entries(RESULTS))
  describe(area, () => {
    it.each(results)('$name', async ({ name, source, basis, note = '', expected, ours, near, mistake }) => {
      const got = await ours();
      const digits = digitsAgreeing(expected, got);
      rows.push({ kind: 'result', area, name, source, basis, note, expected, got, digits, asked: inWords(near), mistake: mistake.what });
      expect(isNear(expected, got, near), `${name}: ${String(got)} against ${String(expected)}`).toBe(true);
      expect(isNear(expected, mistake.gives, near), `a tolerance that lets "${mistake.what}" pass`).toBe(false);
    });
  }); // prettier-ignore

describe('figures copied from their source', () => {
  it.each(COPIED)('$name', ({ name, source, printed, ours, within }) => {
    const got = ours();
    rows.push({ kind: 'copied', name, source, expected: printed, got });
    expect(isNear(printed, got, { within }), `${name}: ${String(got)} against ${String(printed)}`).toBe(true);
  });
});

describe('the count of independent results', () => {
  const all = Object.values(RESULTS).flat();

  it('counts what one publication says of one computation once', () => {
    const sources = all.map(({ source }) => source);
    expect(sources.filter((source, at) => sources.indexOf(source) !== at)).toEqual([]);
    const names = all.map(({ name }) => name);
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });

  it.each(['README.md', 'DEVELOPERS.md'])('is the one that %s gives', (file) => {
    const told = /(\d+) independent published results/.exec(readFileSync(join(root, file), 'utf8'));
    expect(Number(told?.[1])).toBe(countOfResults);
  });
});
