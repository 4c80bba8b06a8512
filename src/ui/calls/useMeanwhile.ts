import { shallowRef, watch, type ShallowRef } from 'vue';

/** A field that somebody else saved with another value while a form was open. */
export interface Meanwhile<F> {
  field: keyof F & string;
  before: unknown;
  after: unknown;
  /** It was changed here too, and stands as typed. */
  kept: boolean;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/**
 * Follows what others save while a form is open. A field that nobody touched here takes the new value over, so that saving does
 * not take theirs back; one that was changed here stays as typed. Both are told.
 * @param form the fields as they stand on the screen, to be changed in place
 * @param saved the same fields as the book has them now
 * @returns what was changed since it was opened, for the screen to show
 */
export function useMeanwhile<F extends object>(
  form: () => F,
  saved: () => F,
  isOpen: () => boolean,
): Readonly<ShallowRef<readonly Meanwhile<F>[]>> {
  const changes = shallowRef<readonly Meanwhile<F>[]>([]);
  let first = saved();
  let known = first;
  watch(
    isOpen,
    () => {
      first = known = saved();
      changes.value = [];
    },
    { flush: 'sync' },
  );
  watch(
    () => JSON.stringify(saved()),
    () => {
      if (!isOpen()) return;
      const now = saved();
      const mine = form();
      const found = (Object.keys(now) as Meanwhile<F>['field'][]).flatMap((field): Meanwhile<F>[] => {
        const told = changes.value.filter((one) => one.field === field);
        if (same(now[field], known[field])) return told;
        const kept = !same(mine[field], known[field]) && !same(mine[field], now[field]);
        // Both typed the same, or it is what was saved here.
        if (!kept && same(mine[field], now[field])) return [];
        if (!kept) mine[field] = now[field];
        return [{ field, before: first[field], after: now[field], kept }];
      });
      known = now;
      changes.value = found;
    },
  );
  return changes;
}
