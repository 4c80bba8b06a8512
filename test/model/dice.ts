/** Choices of one step, read one after another off a list of numbers; past its end each is 0, the plainest choice. */
export class Dice {
  #at = 0;
  readonly #numbers: readonly number[];

  constructor(numbers: readonly number[]) {
    this.#numbers = numbers;
  }

  /** How many numbers were asked for. */
  get used(): number {
    return this.#at;
  }

  /** A whole number from 0 to `below` − 1. */
  below(below: number): number {
    return (this.#numbers[this.#at++] ?? 0) % below;
  }

  between(low: number, high: number): number {
    return low + this.below(high - low + 1);
  }

  /** True once in so many times; false when the numbers have run out. */
  onceIn(times: number): boolean {
    return this.below(times) === times - 1;
  }

  pick<T>(options: readonly T[]): T {
    const found = options[this.below(options.length)];
    if (found === undefined) throw new Error('nothing to pick from');
    return found;
  }

  /** One that suits, the newest first; now and then any at all; undefined where there is none. */
  mostly<T>(suiting: readonly T[], all: readonly T[]): T | undefined {
    const from = this.onceIn(14) ? all : suiting;
    const at = this.below(Math.max(1, from.length));
    return from[from.length - 1 - at];
  }
}
