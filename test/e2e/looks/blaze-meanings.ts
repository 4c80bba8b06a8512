import type { BlazeMark } from './screen-looks.ts';

/**
 * All that blaze may say: stop. `at` is met by the classes of a mark and its parents, `says`, where a part has several
 * uses, by its text.
 */
const MEANINGS: readonly { means: string; at: RegExp; says?: RegExp }[] = [
  { means: 'on hold', at: /\.hold\b|^div\.held\b/ },
  { means: 'on hold', at: /\.flag\.attention/, says: /hold|sample pending/i },
  { means: 'on hold, or held meat went through before', at: /\.stop\b|\.due\b/ },
  { means: 'positive', at: /\.flag\.attention/, says: /positive/i },
  { means: 'the limit, and past it', at: /\.over\b|\.limit\b|\.above\b/ },
  { means: 'overdue', at: /\.late\b/ },
  {
    means: 'past its date',
    at: /\.flag\.attention/,
    says: /past its date|overdue|past the limit|days? late/i,
  },
  { means: 'does not add up', at: /\.wrong\b|\.odd\b|\.off\b|\.sentence\.ask\b|^(circle|text) < .*\.mark\b/ },
  { means: 'does not add up', at: /\.flag\.attention/, says: /too much|does not add up/i },
  {
    means: 'a chart’s mark past a limit, or weighed beyond the whole',
    at: /^(path|text) <.*< svg < div\.frame\b/,
  },
  { means: 'a problem in words', at: /\.(problem|lacks|gone|clock)\b|^input\b/ },
  { means: 'cannot be undone', at: /^(kbd < )?button\.attention\b/ },
];

/** The marks that say something else, each once. */
export function strayBlaze(marks: readonly BlazeMark[]): string[] {
  const stray = marks.filter(
    ({ at, text }) => !MEANINGS.some((one) => one.at.test(at) && (one.says?.test(text) ?? true)),
  );
  return [...new Set(stray.map(({ at, text }) => `“${text}”, ${at}`))];
}
