/** A memory of fixed size: when it is full it starts afresh, so that a cohort of any length needs no more room. */
export class Bounded<Key, Value> {
  readonly #held = new Map<Key, Value>();
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  get(key: Key): Value | undefined {
    return this.#held.get(key);
  }

  keep(key: Key, value: Value): Value {
    if (this.#held.size >= this.#most) this.#held.clear();
    this.#held.set(key, value);
    return value;
  }

  clear(): void {
    this.#held.clear();
  }
}

/** The same number for the same text; numbers are never given twice, so that forgetting old texts is harmless. */
export class TextNumbers {
  readonly #numbers: Bounded<string, number>;
  #next = 0;

  constructor(most: number) {
    this.#numbers = new Bounded(most);
  }

  of(text: string): number {
    const known = this.#numbers.get(text);
    if (known !== undefined) return known;
    this.#next += 1;
    return this.#numbers.keep(text, this.#next);
  }
}

/** Up to here a pair makes a key that the engine holds as a small integer. */
const SMALL_SECOND = 4096;
const SMALL_FIRST = 2 ** 18;
const WIDE = 2 ** 26;

/**
 * A number for each pair of numbers, for keys that are made of many numbers without making a text of them. Numbers are never
 * given twice.
 */
export class PairNumbers {
  readonly #small: Bounded<number, number>;
  readonly #wide: Bounded<number, number>;
  #next = 0;

  constructor(most: number) {
    this.#small = new Bounded(most);
    this.#wide = new Bounded(most);
  }

  of(first: number, second: number): number {
    const small = second < SMALL_SECOND && first < SMALL_FIRST;
    const numbers = small ? this.#small : this.#wide;
    const key = small ? first * SMALL_SECOND + second : first * WIDE + second;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    this.#next += 1;
    return numbers.keep(key, this.#next);
  }
}
