import { describe, expect, test } from 'vitest';
import { canonicalName } from '../../../src/instruments/sfz/text/aliases.ts';
import { keyOf, leadingNumber, onOff } from '../../../src/instruments/sfz/text/numbers.ts';
import { outline, read } from './reading.ts';

describe('activation H: where a value ends', () => {
  test.each([
    [
      'ParsingT, blanks',
      'sample=My Directory/My Wave.wav key=69',
      ['sample=My Directory/My Wave.wav', 'key=69'],
    ],
    ['ParsingT, several blanks', 'sample=a   b.wav   key=1', ['sample=a   b.wav', 'key=1']],
    ['ParsingT, blanks at the end', 'sample=a b.wav \t \nkey=1', ['sample=a b.wav', 'key=1']],
    ['ParsingT, equals sign', 'sample=foo=bar.wav', ['sample=foo=bar.wav']],
    ['ParsingT, a name with equals sign', 'sample=foo=bar foo=bar', ['sample=foo=bar', 'foo=bar']],
    ['ParsingT, sharp', 'sample=C#4-PB.wav', ['sample=C#4-PB.wav']],
    [
      'ParsingT, & and brackets',
      'sample=Flute & Oboe (mf) - 1.wav',
      ['sample=Flute & Oboe (mf) - 1.wav'],
    ],
    [
      'ParsingT, no directive',
      'sample=v2.wav #notAdirective 123',
      ['sample=v2.wav #notAdirective 123'],
    ],
    [
      'no directive either',
      'sample=a #defined #defin #includes b',
      ['sample=a #defined #defin #includes b'],
    ],
    ['Parser source, #define ends it', 'sample=a b #define $x 1\nkey=$x', ['sample=a b', 'key=1']],
    ['Parser source, a header ends it', 'sample=a b<group>', ['sample=a b']],
    ['Parser source, a header ends it anywhere', 'sample=a<group>b', ['sample=a']],
    ['greater than does not', 'sample=a>b', ['sample=a>b']],
    ['any opcode', 'sw_label=Long notes, soft key=1', ['sw_label=Long notes, soft', 'key=1']],
    ['a name with a variable', 'sample=a b locc$x=1', ['sample=a b', 'locc=1']],
    ['no name in front of the sign', 'sample=a =b.wav', ['sample=a =b.wav']],
    ['a hyphen is no part of a name', 'sample=a x-y=b.wav', ['sample=a x-y=b.wav']],
    ['win_backslashes: kept as written', 'sample=a\\b c\\d.wav', ['sample=a\\b c\\d.wav']],
    ['quotes mean nothing', 'sample="a b.wav"', ['sample="a b.wav"']],
    ['letters of other scripts', 'sample=Ку́ю éß.wav key=1', ['sample=Ку́ю éß.wav', 'key=1']],
    ['twice', 'key=1 key=2', ['key=1', 'key=2']],
  ])('%s: %j', async (_, text, opcodes) => {
    const [line] = outline(await read(`<region>${text}`));
    expect(line).toBe(['<region>', ...opcodes].join('|'));
  });

  test('Parser source, base64data is taken raw to the next header or directive', async () => {
    const document = await read(
      '<sample>name=a b base64data=AAA//$x/*\nBB= key=1\n\n<region>key=2',
    );
    expect(outline(document)).toEqual([
      '<sample>|name=a b|base64data=AAA//$x/*\nBB= key=1',
      '<region>|key=2',
    ]);
    expect(document.findings).toEqual([]);
    const defined = await read('<sample>base64data=AAAA\n#define $k 7\n<region>key=$k');
    expect(outline(defined)).toEqual(['<sample>|base64data=AAAA', '<region>|key=7']);
  });
});

/** Contract of the compiler, and activation H: aliases. */
test.each([
  ...['loopmode loop_mode', 'loopstart loop_start', 'loopend loop_end', 'offby off_by'],
  ...['offmode off_mode', 'polyphony_group group', 'curve curve_index', 'key key'],
  ...['start_locc1 on_locc1', 'start_hicc12 on_hicc12', 'start_lohdcc1 on_lohdcc1'],
  ...['start_hihdcc1 on_hihdcc1', 'on_locc1 on_locc1', 'on_hihdcc3 on_hihdcc3'],
  ...['lorealcc1 lohdcc1', 'hirealcc1 hihdcc1', 'set_realcc1 set_hdcc1', 'set_cc1 set_cc1'],
  ...[
    'set_hdcc1 set_hdcc1',
    'label_cc7 label_cc7',
    'gain_cc7 volume_oncc7',
    'gain_oncc7 volume_oncc7',
  ],
  ...['volume_cc7 volume_oncc7', 'volume_oncc7 volume_oncc7', 'amplitude_cc1 amplitude_oncc1'],
  ...['amplitude_curvecc1 amplitude_curvecc1', 'amplitude_smoothcc1 amplitude_smoothcc1'],
  ...['offset_cc1 offset_oncc1', 'delay_cc1 delay_oncc1', 'loop_startcc1 loop_start_oncc1'],
  ...['loop_lengthcc1 loop_length_oncc1', 'ampeg_releasecc72 ampeg_release_oncc72'],
  ...[
    'ampeg_release_oncc72 ampeg_release_oncc72',
    'ampeg_release_curvecc72 ampeg_release_curvecc72',
  ],
  ...['locc64 locc64', 'hicc064 hicc64', 'xfin_locc1 xfin_locc1', 'reverse_hicc2 reverse_hicc2'],
  ...['sustain_cc sustain_cc', 'sostenuto_cc sostenuto_cc', 'amp_veltrack_cc1 amp_veltrack_oncc1'],
  ...['Gain_CC007 volume_oncc7', 'amp_velcurve_064 amp_velcurve_64', 'v000 v000', 'cc1 cc1'],
  ...['constructor constructor', '__proto__ __proto__', 'locc locc'],
])('activation H, aliases: %s', (pair) => {
  const [written, canonical] = pair.split(' ');
  expect(canonicalName(written!)).toBe(canonical);
});

test('aliases are resolved in a document, and places stay as written', async () => {
  const { headers } = await read('<region>LoopMode=one_shot offby=1');
  expect(headers[0]!.opcodes).toMatchObject([
    { name: 'loop_mode', value: 'one_shot', place: { start: 8, end: 25 } },
    { name: 'off_by', value: '1' },
  ]);
});

test.each<[string, number | null]>([
  ['10', 10],
  ['-10', -10],
  ['+10', 10],
  ['10.5', 10.5],
  ['.5', 0.5],
  ['5.', 5],
  ['-0', 0],
  ['1.05e+001', 10.5],
  ['1E2', 100],
  ['1e', 1],
  ['10garbage', 10],
  ['57Edge', 57],
  ['60 // no', 60],
  [' 60', 60],
  ['garbage10', null],
  ['', null],
  ['-', null],
  ['.', null],
  ['1e999', null],
  ['NaN', null],
  ['Infinity', null],
  ['0x10', 0],
])('activation H (OpcodeT), number %j', (text, expected) => {
  expect(leadingNumber(text)).toBe(expected);
});

test.each<[string, number | null]>([
  ['60', 60],
  ['60.7', 60],
  ['-1', -1],
  ['-0', 0],
  ['57Edge', 57],
  ['128', 128],
  ['c-1', 0],
  ['c4', 60],
  ['C4', 60],
  ['c#4', 61],
  ['c♯4', 61],
  ['db4', 61],
  ['d♭4', 61],
  ['DB4', 61],
  ['b3', 59],
  ['bb3', 58],
  ['g9', 127],
  ['a0 ', 21],
  ['c+4', 60],
  ['g#9', 128],
  ['c-2', null],
  ['e#4', null],
  ['b#4', null],
  ['fb4', null],
  ['cb4', null],
  ['h4', null],
  ['c', null],
  ['c4x', null],
  ['', null],
])('activation H (OpcodeT), key %j', (text, expected) => {
  expect(keyOf(text)).toBe(expected);
});

test.each<[string, boolean | null]>([
  ['0', false],
  ['1', true],
  ['2', true],
  ['-1', true],
  ['on', true],
  ['ON', true],
  ['Off', false],
  ['maybe', null],
  ['', null],
])('activation H (OpcodeT), on or off %j', (text, expected) => {
  expect(onOff(text)).toBe(expected);
});
