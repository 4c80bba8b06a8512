/** A line of people or animals before those who serve them. */
export interface Queue<T> {
  put(one: T): void;
  /** No more come. */
  end(): void;
  /** The next one; null once none come any more. */
  next(): Promise<T | null>;
}

export function queue<T>(): Queue<T> {
  const standing: T[] = [];
  const idle: ((one: T | null) => void)[] = [];
  let ended = false;
  return {
    put(one) {
      const server = idle.shift();
      if (server) server(one);
      else standing.push(one);
    },
    end() {
      ended = true;
      for (const server of idle.splice(0)) server(null);
    },
    next() {
      const one = standing.shift();
      if (one !== undefined) return Promise.resolve(one);
      return ended ? Promise.resolve(null) : new Promise((resolve) => idle.push(resolve));
    },
  };
}
