import fc from 'fast-check';
import type { SfzData } from '../../oracle/sfz-data.ts';

/** An instrument as files. */
export type Files = Readonly<Record<string, string>>;

const lineEnds = ['\n', '\r\n', '\r'] as const;

/** What may stand between two things; `~` is a line end. */
const between = [
  ...[' ', ' ', '\t', '~', '~', '~~', '~  ', '  ~', ' ~~ '],
  ...[
    ' // x=1 <region>~',
    '~// a line of its own~',
    ' /* <a> b=2 */ ',
    '~/* ~ two lines */ ',
    '~/**/~',
  ],
];

/** The same, or nothing, where a header stands in front or behind. */
const besideHeader = [...between, '', '', ''];

/** The picks of one layout, shrinking to the first of each list. */
interface Picks {
  readonly of: <T>(list: readonly T[]) => T;
  /** True one time in `times`. */
  readonly one: (times: number) => boolean;
}

/**
 * Writes an instrument with blanks, comments and line ends anywhere, stretches of it in files of their
 * own, and values in variables. The regions stay the same ones in the same order.
 */
export const randomLayout = (data: SfzData): fc.Arbitrary<Files> =>
  fc.gen().map((g) => {
    const picks: Picks = {
      of: (list) => list[g(() => fc.nat({ max: list.length - 1 }))]!,
      one: (times) => g(() => fc.nat({ max: times - 1 })) === times - 1,
    };
    return new Layout(picks).write(data);
  });

class Layout {
  readonly #picks: Picks;
  readonly #lineEnd: string;
  readonly #files: Record<string, string> = {};
  #variables = 0;
  #includes = 0;

  constructor(picks: Picks) {
    this.#picks = picks;
    this.#lineEnd = picks.of(lineEnds);
  }

  write({ control, headers }: SfzData): Files {
    const all =
      control === undefined ? headers : [{ name: 'control', opcodes: control }, ...headers];
    const tokens = all.flatMap(({ name, opcodes }) => [
      `<${name}>`,
      ...opcodes.flatMap(([opcode, value]) => this.#opcode(opcode, value)),
      ...(name === 'group' && this.#picks.one(2) ? this.#twice() : []),
    ]);
    this.#files['kit.sfz'] = this.#text(tokens, 3);
    return this.#files;
  }

  #opcode(name: string, value: string): readonly string[] {
    if (!this.#picks.one(8) || value === '' || /\s/u.test(value)) return [`${name}=${value}`];
    const variable = `$v${String((this.#variables += 1))}_`;
    return [`#define ${variable} ${value}`, `${name}=${variable}`];
  }

  /** One file included twice, two keys apart: regions differ only in what the variable is. */
  #twice(): readonly string[] {
    const name = `twice-${String((this.#includes += 1))}.sfz`;
    this.#files[name] = this.#text(
      ['<region>', 'key=$twice', '<region>', 'lokey=$twice', 'sw_last=24', 'seq_length=2'],
      0,
    );
    const include = `#include "${name}"`;
    return ['#define $twice 60', include, '#define $twice 62', include, 'hivel=100'];
  }

  #text(tokens: readonly string[], depth: number): string {
    const pieces: string[] = [];
    let last = '';
    for (let at = 0; at < tokens.length;) {
      let token = tokens[at]!;
      at += 1;
      if (depth > 0 && this.#picks.one(8)) {
        const length = this.#picks.of([1, 2, 3, 5, 12]);
        const name = `part-${String((this.#includes += 1))}.sfz`;
        this.#files[name] = this.#text([token, ...tokens.slice(at, at + length - 1)], depth - 1);
        token = `#include "${name}"`;
        at += length - 1;
      }
      const isFree = last.startsWith('<') || (token.startsWith('<') && !last.startsWith('#'));
      if (last !== '') pieces.push(this.#gap(isFree ? besideHeader : between));
      pieces.push(token);
      last = token;
    }
    return (
      this.#gap(['', '', '// first~']) + pieces.join('') + this.#gap(['', '~', ' // last', '~~'])
    );
  }

  #gap(list: readonly string[]): string {
    return this.#picks.of(list).replaceAll('~', this.#lineEnd);
  }
}
