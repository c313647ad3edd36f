/** A header with its opcodes, to be written. */
export interface NewHeader {
  readonly name: string;
  readonly opcodes: readonly (readonly [name: string, value: string])[];
}

/** @example lineOf({ name: 'region', opcodes: [['key', '60']] }) // '<region> key=60' */
export const lineOf = ({ name, opcodes }: NewHeader): string =>
  [`<${name}>`, ...opcodes.map((opcode) => opcode.join('='))].join(' ');

/** A whole number as the reader takes it back: without an exponent, however large. */
export const wholeText = (number: number): string =>
  Number.isSafeInteger(number) ? String(number) : BigInt(number).toString();
