/**
 * Creates a queue for work that must not overlap. A failure rejects for its caller only, and the next work runs
 * anyway: quitting uses this queue too.
 */
export function runInTurn(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work);
    last = mine.catch(() => undefined);
    return mine;
  };
}
