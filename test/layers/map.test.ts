/** The documents name files that are there. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rooms } from '../../rooms.js';

const ROOT = join(import.meta.dirname, '../..');
const DOCUMENTS = [
  'DEVELOPERS.md',
  'README.md',
  'RELEASING.md',
  'src/words/README.md',
  'src/core/README.md',
  'src/book/README.md',
  'electron/README.md',
];
const textOf = (file: string): string => readFileSync(join(ROOT, file), 'utf8');

describe.each(DOCUMENTS)('%s', (document) => {
  const text = textOf(document);

  it('links to files that are there', () => {
    const links = [...text.matchAll(/\]\(([^)#:]+)(?:#[^)]*)?\)/g)].map(([, link]) => link ?? '');
    expect(links.filter((link) => !existsSync(join(ROOT, dirname(document), link)))).toEqual([]);
  });

  it('names files that are there', () => {
    const named = [...text.matchAll(/`((?:src|test|resources|electron)\/[\w./-]+)`/g)].map(
      ([, path]) => path ?? '',
    );
    expect(named.filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
  });
});

it('the map has at most 200 lines and lists the rooms of each layer as they stand', () => {
  const map = textOf('DEVELOPERS.md');
  expect(map.split('\n').length).toBeLessThanOrEqual(200);
  for (const layer of ['core', 'book', 'desk'] as const)
    expect(map).toContain(`| ${layer} | ${rooms[`src/${layer}`].join(' · ')} |`);
});
