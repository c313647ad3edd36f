/** `length` bytes from `offset`; fewer only at the end of the file. */
export type ReadRange = (offset: number, length: number) => Promise<Uint8Array>;

/** One page of most disks: a read of less costs the same. */
const windowBytes = 4096;

/** A well-made file needs one to three; a hostile one stops here. */
const mostReads = 12;

/**
 * A file seen through one window of a few KiB that moves on demand, so that thousands of headers cost
 * little more than opening their files.
 */
export class HeaderBytes {
  readonly #read: ReadRange;
  #size: number;
  #window: Uint8Array = new Uint8Array(0);
  #start = 0;
  #reads = 0;
  #exhausted = false;

  constructor(size: number, read: ReadRange) {
    this.#size = size;
    this.#read = read;
  }

  /** Bytes of the whole file; fewer than at first when it turns out to have become shorter. */
  get size(): number {
    return this.#size;
  }

  /** True once something was not read because there had been too many reads. */
  get exhausted(): boolean {
    return this.#exhausted;
  }

  /**
   * Up to `length` bytes from `offset`: fewer at the end of the file, and none more once
   * {@link exhausted}. What was handed out stays as it is.
   */
  async view(offset: number, length: number): Promise<Uint8Array> {
    const wanted = Math.max(0, Math.min(length, this.size - offset));
    const inside =
      offset >= this.#start && offset + wanted <= this.#start + this.#window.length && wanted > 0;
    if (!inside && wanted > 0) await this.#moveTo(offset, wanted);
    const from = offset - this.#start;
    return this.#window.subarray(from, from + wanted);
  }

  async #moveTo(offset: number, wanted: number): Promise<void> {
    this.#start = offset;
    if (this.#reads === mostReads) {
      this.#exhausted = true;
      this.#window = new Uint8Array(0);
      return;
    }
    this.#reads += 1;
    const length = Math.min(Math.max(wanted, windowBytes), this.size - offset);
    this.#window = await this.#read(offset, length);
    if (this.#window.length < length) this.#size = offset + this.#window.length;
  }
}
