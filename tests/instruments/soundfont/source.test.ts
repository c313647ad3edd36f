import { describe, expect, test } from 'vitest';
import { parseInstrumentSource } from '../../../src/instruments/soundfont/source.ts';
import { UsageError } from '../../../src/terms/errors.ts';

const preset = (bank: number, program: number) => ({ bank, program });

describe('an instrument named on the command line', () => {
  test.each([
    ['keys.sf2', 'keys.sf2', null],
    ['banks/keys.sf2#0:48', 'banks/keys.sf2', preset(0, 48)],
    ['KEYS.SF2#128:0', 'KEYS.SF2', preset(128, 0)],
    ['keys.sf2#16383:127', 'keys.sf2', preset(16_383, 127)],
    ['keys.sf2#008:007', 'keys.sf2', preset(8, 7)],
    ['keys#0:48', 'keys', preset(0, 48)],
    ['C# minor.sf2', 'C# minor.sf2', null],
    ['C# minor.sf2#1:2', 'C# minor.sf2', preset(1, 2)],
    ['take #2/keys.sf2', 'take #2/keys.sf2', null],
    ['low strings #2.sfz', 'low strings #2.sfz', null],
  ])('%s', (text, path, expected) => {
    expect(parseInstrumentSource(text)).toEqual({ path, preset: expected });
  });

  test.each([
    '',
    '#0:48',
    'keys.sf2#',
    'keys.sf2#48',
    'keys.sf2#0:',
    'keys.sf2#:48',
    'keys.sf2#0:48 Strings',
    'keys.sf2#0:48:1',
    'keys.sf2#-1:48',
    'keys.sf2#0x0:48',
    'keys.sf2#0:128',
    'keys.sf2#16384:0',
    'keys.sf2#999999:0',
  ])('%j is refused, with what to write instead', (text) => {
    expect(() => parseInstrumentSource(text)).toThrow(UsageError);
    expect(() => parseInstrumentSource(text)).toThrow(
      expect.objectContaining({ hint: expect.stringContaining('#bank:program') as string }),
    );
  });
});
