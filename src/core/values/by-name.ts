/**
 * An empty record by names that somebody typed. It inherits nothing, so that a product called `__proto__` is a name like any other.
 * @example byName<number>()['constructor'] // undefined
 */
export function byName<T>(): Record<string, T> {
  return Object.create(null) as Record<string, T>;
}
