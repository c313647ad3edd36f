/** Gives each value that is new to it the next number. Values are told apart by their JSON. */
export class IndexTable<Value> {
  readonly values: Value[] = [];
  readonly #numbers = new Map<string, number>();

  numberOf(value: Value): number {
    const key = JSON.stringify(value);
    let number = this.#numbers.get(key);
    if (number === undefined) {
      number = this.values.push(value) - 1;
      this.#numbers.set(key, number);
    }
    return number;
  }
}
