import { describe, expect, it } from 'vitest';
import { Chunks } from '../../../src/desk/export/chunks.ts';

/** Texts that take `ms` each to make. */
function* slowly(texts: readonly string[], ms: number): Generator<string> {
  for (const text of texts) {
    const until = performance.now() + ms;
    while (performance.now() < until);
    yield text;
  }
}

/** The text written, and how often others had a turn meanwhile. */
async function written(texts: Iterable<string>): Promise<{ text: string; turns: number }> {
  let [over, turns] = [false, 0];
  const turn = (): void => {
    turns += 1;
    if (!over) setImmediate(turn);
  };
  setImmediate(turn);
  let text = '';
  await new Chunks().each(texts, (bytes) => void (text += bytes.toString('utf8')));
  over = true;
  return { text, turns };
}

describe('a text written in chunks', () => {
  it('lets others in while texts that are short take long to make', async () => {
    const { text, turns } = await written(slowly(['a', '', 'é', '', 'b', 'c', '', 'd'], 20));
    expect(text).toBe('aébcd');
    expect(turns).toBeGreaterThanOrEqual(7);
  });

  it('is whole where a text is longer than a chunk', async () => {
    const long = '½'.repeat(400_000);
    expect((await written(['<', long, '>'])).text).toBe(`<${long}>`);
  });
});
