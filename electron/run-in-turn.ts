/**
 * Makes a queue for work that must not overlap. Work that fails rejects for whoever asked for it, and the next has its
 * turn all the same: quitting stands in this queue too.
 */
export function runInTurn(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work);
    last = mine.catch(() => undefined);
    return mine;
  };
}
