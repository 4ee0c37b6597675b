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

/**
 * A number for each pair of small numbers, for keys that are made of many numbers without making a text of them. Numbers are
 * never given twice.
 */
export class PairNumbers {
  #rows: (number | undefined)[][] = [];
  #held = 0;
  #next = 0;
  readonly #most: number;

  constructor(most: number) {
    this.#most = most;
  }

  of(first: number, second: number): number {
    return this.#rows[first]?.[second] ?? this.#give(first, second);
  }

  #give(first: number, second: number): number {
    if (this.#held >= this.#most) {
      this.#rows = [];
      this.#held = 0;
    }
    this.#held += 1;
    this.#next += 1;
    const row = this.#rows[first] ?? [];
    row[second] = this.#next;
    this.#rows[first] = row;
    return this.#next;
  }
}
