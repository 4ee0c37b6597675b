/** Text gathered as bytes in one place that is used again and again: nothing is left behind for each row. */
const FIRST_SIZE = 1024 * 1024;
/** UTF-8 needs at most three bytes for each UTF-16 unit. */
const MOST_BYTES = 3;

export class TextBuffer {
  #held = Buffer.allocUnsafe(FIRST_SIZE);
  #length = 0;

  add(text: string): void {
    if (this.#length + text.length * MOST_BYTES > this.#held.length) this.#grow(text.length * MOST_BYTES);
    this.#length += this.#held.write(text, this.#length);
  }

  #grow(by: number): void {
    const larger = Buffer.allocUnsafe(Math.max(this.#held.length * 2, this.#length + by));
    this.#held.copy(larger, 0, 0, this.#length);
    this.#held = larger;
  }

  /** What was added since `clear`; holds until the next one. */
  bytes(): Uint8Array {
    return this.#held.subarray(0, this.#length);
  }

  clear(): void {
    this.#length = 0;
  }
}
