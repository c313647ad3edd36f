import { describe, expect, it, test } from 'vitest';
import { hex } from '../midi/hex.ts';

describe('hex, the dumps the tests are written in', () => {
  it('reads digits of either case, with or without blanks', () => {
    expect([...hex('4D54 68 64\n\t00ff  A0')]).toEqual([0x4d, 0x54, 0x68, 0x64, 0, 0xff, 0xa0]);
  });

  it('leaves out comments of both kinds, to the end of their line only', () => {
    expect([...hex('90 3C 60 # note 7F\r\n80 // FF # 00\n# 12\n40')]).toEqual([
      0x90, 0x3c, 0x60, 0x80, 0x40,
    ]);
  });

  it('reads a comment that touches the last byte', () => {
    expect([...hex('90#3C\n60//00')]).toEqual([0x90, 0x60]);
  });

  it('gives no bytes for nothing', () => {
    expect(hex(' \n # only words\n')).toEqual(new Uint8Array(0));
  });

  test.each(['9', '90 3C 6', '90 3C6', '0 0'])('throws on odd digits: %s', (text) => {
    expect(() => hex(text)).toThrow(/odd/);
  });

  test.each(['0x90', '90 3G', '90, 3C', '-1'])('throws on what is no hex: %s', (text) => {
    expect(() => hex(text)).toThrow(/not hex/);
  });

  it('names the line', () => {
    expect(() => hex('90 3C\n60\n7')).toThrow(/line 3: "7"/);
  });
});
