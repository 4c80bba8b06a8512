/** The shortest history that still fails: steps are left out, then choices made plain. */
import { run, type Drawn, type Ran, type RunOptions } from './history.ts';

export interface Shortest {
  history: Drawn[];
  ran: Ran;
  tries: number;
}

const MAX_TRIES = 400;

/** What two failures must share to be the same one: its first line without numbers. */
const kindOf = (wrong: string | null): string => (wrong ?? '').split('\n').slice(0, 2).join(' ').replace(/[\d.,-]+|\{.*/g, '#').slice(0, 60); // prettier-ignore

export async function shorten(history: readonly Drawn[], failed: Ran, options: RunOptions = {}, most = MAX_TRIES): Promise<Shortest> {
  const kind = kindOf(failed.wrong);
  let best: Shortest = { history: history.slice(0, failed.at + 1), ran: failed, tries: 0 };
  let tries = 0;
  const attempt = async (shorter: Drawn[]): Promise<boolean> => {
    if (tries >= most) return false;
    tries += 1;
    const ran = await run(shorter, { ...options, compareEvery: 1 });
    if (ran.wrong === null || kindOf(ran.wrong) !== kind) return false;
    best = { history: shorter.slice(0, ran.at + 1), ran, tries };
    return true;
  };
  // Compared after every step, it may be noticed earlier.
  await attempt([...history.slice(0, failed.at + 1)]);
  for (let size = Math.ceil(best.history.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2))
    for (let from = best.history.length - size; from >= 0; from -= size)
      await attempt([...best.history.slice(0, from), ...best.history.slice(from + size)]);
  for (let i = best.history.length - 1; i >= 0; i--) await plain(best, i, attempt);
  return { ...best, tries };
} // prettier-ignore

/** The last numbers of a step are dropped as far as it still fails, and each other is made 0. */
async function plain({ history }: Shortest, i: number, attempt: (shorter: Drawn[]) => Promise<boolean>): Promise<void> {
  const step = history[i];
  if (!step) return;
  const [name] = step;
  let [, numbers] = step;
  const now = [...history];
  const withNumbers = (other: readonly number[]): Drawn[] => now.with(i, [name, other]);
  for (let keep = Math.floor(numbers.length / 2); numbers.length > 0 && keep < numbers.length; keep = Math.max(keep + 1, Math.floor((keep + numbers.length) / 2)))
    if (await attempt(withNumbers(numbers.slice(0, keep)))) numbers = numbers.slice(0, keep);
} // prettier-ignore

/** A history as it can be given to `--replay`, and as people read it. */
export function told({ history, ran }: Pick<Shortest, 'history' | 'ran'>): string {
  return [`${ran.wrong}`, '', 'The calls, from a new book on:', ...ran.log.map((line) => `  ${line}`), '', `npm run model -- --replay '${JSON.stringify(history)}'`].join('\n'); // prettier-ignore
}
