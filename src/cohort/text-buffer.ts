/** Text gathered as bytes in one place that is used again and again: nothing is left behind for each row. */
const FIRST_SIZE = 1024 * 1024;
/** UTF-8 needs at most three bytes for each UTF-16 unit. */
const MOST_BYTES = 3;

export class TextBuffer {
  // Not from the shared pool of small buffers: it can be handed to another core as it is.
  #held = Buffer.from(new ArrayBuffer(FIRST_SIZE));
  #length = 0;

  add(text: string): void {
    if (this.#length + text.length * MOST_BYTES > this.#held.length) this.#grow(text.length * MOST_BYTES);
    this.#length += this.#held.write(text, this.#length);
  }

  #grow(by: number): void {
    const larger = Buffer.from(new ArrayBuffer(Math.max(this.#held.length * 2, this.#length + by, FIRST_SIZE)));
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

  /** Gives the bytes away, in a buffer of their own. */
  release(): Uint8Array {
    const bytes = this.bytes();
    this.#held = Buffer.alloc(0);
    this.#length = 0;
    return bytes;
  }

  /** Takes a buffer that is needed no more, so that it need not be made anew. */
  adopt(buffer: ArrayBuffer): void {
    if (buffer.byteLength > this.#held.length) this.#held = Buffer.from(buffer);
  }
}
