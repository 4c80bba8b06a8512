/** Strictness of the double: unknown members cannot be read, unclonable values cannot be sent, setters work once. */
import { EventEmitter } from 'node:events';

/** An object whose unknown members throw instead of being `undefined`. */
export function strict<T extends object>(name: string, target: T): T {
  return new Proxy(target, {
    get(object, member) {
      // Every awaited value is checked for `then`.
      if (typeof member === 'string' && member !== 'then' && !(member in object)) {
        throw new Error(`The double of electron has no ${name}.${member}`);
      }
      const value: unknown = Reflect.get(object, member, object);
      // Bound, so that private members work behind the proxy.
      const bound = typeof value === 'function' && !('prototype' in value);
      return bound ? (value as () => unknown).bind(object) : value;
    },
    set(_object, member) {
      throw new Error(`${name}.${String(member)} cannot be set`);
    },
  });
}

/** An emitter that accepts only known events. */
export class StrictEmitter extends EventEmitter {
  readonly #name: string;
  readonly #events: readonly string[];

  constructor(name: string, events: readonly string[]) {
    super();
    this.#name = name;
    this.#events = events;
  }

  #check(event: string | symbol): void {
    if (typeof event === 'string' && !this.#events.includes(event)) {
      throw new Error(`${this.#name} has no event "${event}"`);
    }
  }

  override on(event: string | symbol, listener: (...args: never[]) => void): this {
    this.#check(event);
    return super.on(event, listener as (...args: unknown[]) => void);
  }

  override once(event: string | symbol, listener: (...args: never[]) => void): this {
    this.#check(event);
    return super.once(event, listener as (...args: unknown[]) => void);
  }
}

/** An event with preventDefault; `more` are the members of the real event. */
export function preventable<T extends object>(more: T): T & { preventDefault(): void; prevented(): boolean } {
  let prevented = false;
  return strict('event', { ...more, preventDefault: () => (prevented = true), prevented: () => prevented });
}

/** A setter that may be called once. */
export function once<H>(name: string): { set(handler: H): void; handler: () => H } {
  let kept: H | null = null;
  return {
    set(handler) {
      if (kept) throw new Error(`${name} was set twice`);
      if (typeof handler !== 'function') throw new Error(`${name} needs a function`);
      kept = handler;
    },
    handler() {
      if (!kept) throw new Error(`${name} was never set`);
      return kept;
    },
  };
}

/** Rejects options that the real function does not have, and unclonable values. */
export function checkOptions(name: string, options: object, known: readonly string[]): void {
  const unknown = Object.keys(options).filter((key) => !known.includes(key));
  if (unknown.length > 0) throw new Error(`${name} has no option ${unknown.join(', ')}`);
}
