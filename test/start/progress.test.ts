/** The progress of a download: one line that is rewritten in a terminal, a few lines in a file. */
import { describe, expect, it } from 'vitest';
import { showProgress } from '../../electron/start/progress.mjs';

function shownOn(isTTY: boolean) {
  let text = '';
  const progress = showProgress({ isTTY, write: (more) => (text += more) });
  return { ...progress, text: () => text };
}

describe('progress', () => {
  it('rewrites its line in a terminal, only when the line changes', () => {
    const { came, end, text } = shownOn(true);
    for (const bytes of [0, 1, 55_000_000, 110_000_000]) came(bytes, 110_000_000);
    end();
    expect(text()).toBe('\r  0 MB of 110 MB (0%)\r  55 MB of 110 MB (50%)\r  110 MB of 110 MB (100%)\n');
  });

  it('leaves nothing of a longer line behind a shorter one', () => {
    const { came, text } = shownOn(true);
    came(110_000_000, 110_000_000);
    came(0, 110_000_000);
    const [, longer = '', shorter = ''] = text().split('\r');
    expect(shorter).toHaveLength(longer.length);
    expect(shorter.trim()).toBe('0 MB of 110 MB (0%)');
  });

  it('gives a sentence a line of its own', () => {
    const { came, note, text } = shownOn(true);
    came(55_000_000, 110_000_000);
    note('Trying again.');
    came(55_000_000, 110_000_000);
    expect(text()).toBe('\r  55 MB of 110 MB (50%)\nTrying again.\n\r  55 MB of 110 MB (50%)');
  });

  it('writes ten lines into a file, not thousands', () => {
    const { came, end, text } = shownOn(false);
    for (let bytes = 0; bytes <= 1_000; bytes += 1) came(bytes * 100_000, 100_000_000);
    end();
    expect(text().trimEnd().split('\n')).toHaveLength(11);
    expect(text()).toMatch(/^ {2}0 MB of 100 MB \(0%\)\n {2}10 MB of 100 MB/);
  });

  it('shows the downloaded amount if the total is unknown', () => {
    const { came, text } = shownOn(true);
    came(3_000_000, 0);
    expect(text()).toBe('\r  3 MB');
  });
});
