import { describe, expect, test } from 'vitest';
import { checkAgainstReader } from './against-reader.ts';
import { keepSet } from './trimming.ts';

const stubComment =
  '// These play nothing. They stand for switches and controllers of regions that are gone.';

const lines = (...all: readonly string[]): string => all.map((line) => `${line}\n`).join('');

/** Trims one text by hand-made rows: what stays, and what is expected. */
const becomes = async (
  before: string,
  loaded: readonly number[],
  after: string,
  silent: readonly number[] = [],
): Promise<void> => {
  const { texts } = await checkAgainstReader({ 'kit.sfz': before }, keepSet(loaded, silent));
  expect(texts).toEqual({ 'kit.sfz': after });
};

describe('regions are taken out of their lines', () => {
  test.each<readonly [string, string, readonly number[], string]>([
    [
      'a line of its own goes with its line end',
      '<group>\n<region> key=60\n<region> key=61\n<region> key=62\n',
      [0, 2],
      '<group>\n<region> key=60\n<region> key=62\n',
    ],
    [
      'several lines go',
      '<region>\n  sample=a.wav\n  key=60\n<region>\n  key=61\n',
      [1],
      '<region>\n  key=61\n',
    ],
    [
      'no second empty line is left',
      '<group>\n\n<region>\nkey=60\n\n<region>\nkey=61\n\n<region>\nkey=62\n',
      [2],
      '<group>\n\n<region>\nkey=62\n',
    ],
    [
      'several on a line, the middle one',
      '<region>key=60 <region>key=61 <region>key=62\n',
      [0, 2],
      '<region>key=60 <region>key=62\n',
    ],
    [
      'several on a line without blanks',
      '<region>key=60<region>key=61<region>key=62\n',
      [0, 2],
      '<region>key=60 <region>key=62\n',
    ],
    [
      'the last of a line',
      '<group> key=60  <region> lovel=1 \n<region>\n',
      [1],
      '<group> key=60\n<region>\n',
    ],
    [
      'the first of a line keeps how far it was moved in',
      '  <region> key=60   <region> key=61\n',
      [1],
      '  <region> key=61\n',
    ],
    [
      'two beside each other on a line',
      '<group> <region> key=60 <region> key=61 <region> key=62\n',
      [2],
      '<group> <region> key=62\n',
    ],
    [
      'over two lines, both with something else',
      '<group> <region> key=60\nlovel=3 <region> key=62\n',
      [1],
      '<group> <region> key=62\n',
    ],
    [
      'without opcodes of its own',
      '<group>key=60\n<region>\n<region>lovel=2\n<region>\n',
      [1],
      '<group>key=60\n<region>lovel=2\n',
    ],
    [
      'what stands behind the last region',
      '<region> key=60\n<region> key=61\n\n// the end\n<curve> curve_index=7 v000=1\n',
      [0],
      '<region> key=60\n\n// the end\n<curve> curve_index=7 v000=1\n',
    ],
    ['no line end at the end', '<region> key=60\n<region> key=61', [0], '<region> key=60\n'],
    ['nothing else', '<region> key=60', [], ''],
    [
      'a value with blanks in front',
      '<region> sample=My wave.wav <region> key=61\n',
      [0],
      '<region> sample=My wave.wav\n',
    ],
    [
      'headers and opcodes that are not known, and capitals',
      '<REGION> key=1\n<shape> a=b\n<region> key=60 my_own=$none thing=4\n<region> mine=x  y\n',
      [1],
      '<REGION> key=1\n<shape> a=b\n<region> mine=x  y\n',
    ],
    [
      'lines that the reader skips, within and behind on the line',
      '<region> key=60\nwhat is this\nlovel=2 /* c */ and this\nand that\n<region> key=61\n',
      [1],
      'and that\n<region> key=61\n',
    ],
    [
      'a line that starts with a slash',
      '<group> <region> /key=3 <region>\n<region> key=61\n',
      [1],
      '<group>\n<region> key=61\n',
    ],
  ])('%s', async (_, before, loaded, after) => {
    await becomes(before, loaded, after);
    await becomes(before.replaceAll('\n', '\r\n'), loaded, after.replaceAll('\n', '\r\n'));
    await becomes(before.replaceAll('\n', '\r'), loaded, after.replaceAll('\n', '\r'));
  });
});

describe('comments', () => {
  test.each<readonly [string, string, readonly number[], string]>([
    [
      'behind on the line go, on lines of their own stay',
      '// one\n<region> key=60 // of one\n// two\n<region> key=61 // of two\n',
      [1],
      '// one\n// two\n<region> key=61 // of two\n',
    ],
    [
      'between opcodes go',
      '<region>\n// where\nkey=60 /* why */ lovel=3\n/* two\nlines */ hivel=4\n<region> key=61\n',
      [1],
      '<region> key=61\n',
    ],
    [
      'over several lines behind go, the rest of their last line stays',
      '<region> key=60 /* from here\nto here */ <region> key=61\n',
      [1],
      '<region> key=61\n',
    ],
    [
      'in front on the line stay',
      '/* first */ <region> key=60\n<region> key=61\n',
      [1],
      '/* first */\n<region> key=61\n',
    ],
    [
      'that hold what looks like regions stay',
      '// <region> key=1\n/* <region>\nkey=2 */\n<region> key=60\n<region> key=61\n',
      [1],
      '// <region> key=1\n/* <region>\nkey=2 */\n<region> key=61\n',
    ],
  ])('%s', (_, before, loaded, after) => becomes(before, loaded, after));
});

describe('directives within what goes', () => {
  test.each<readonly [string, string, readonly number[], string]>([
    [
      'on the line of a region',
      '<region> key=60 #define $a 5 lovel=$a\n<region> key=$a\n',
      [1],
      '#define $a 5\n<region> key=$a\n',
    ],
    [
      'on a line of its own',
      '<region> key=60\n#define $a 5\nlovel=$a\n<region> key=$a\n',
      [1],
      '#define $a 5\n<region> key=$a\n',
    ],
    [
      'between two regions of a line',
      '<region> key=1 <region> key=60 #define $a 5 lovel=$a <region> key=$a\n',
      [0, 2],
      '<region> key=1 #define $a 5 <region> key=$a\n',
    ],
    [
      'one without a value does not come by one',
      '<region> #define $a /* none */ key=60 <region> key=61$a\n',
      [1],
      '#define $a\n<region> key=61$a\n',
    ],
    [
      'two without values, and comments around them',
      '<region> /* 1 */ #define $a /* 2 */ lovel=1 #define $b /* 3 */ key=60 <region> key=61$a\n',
      [1],
      '#define $a\n#define $b\n<region> key=61$a\n',
    ],
  ])('%s', (_, before, loaded, after) => becomes(before, loaded, after));
});

describe('regions that only stop others lose their samples', () => {
  test.each<readonly [string, string, readonly number[], string]>([
    [
      'an inherited sample',
      '<group> sample=a.wav\n<region> key=60 group=1 // choke\n<region> key=61 off_by=1\n',
      [1],
      '<group> sample=a.wav\n<region> key=60 group=1 sample=*silence // choke\n<region> key=61 off_by=1\n',
    ],
    [
      'without opcodes of its own',
      '<group> sample=a.wav\n<region><region>\n<region>#define $a 1\n',
      [1],
      '<group> sample=a.wav\n<region> sample=*silence<region>\n<region> sample=*silence #define $a 1\n',
    ],
    [
      'its own one, and a generator',
      '<region> sample=a.wav key=1\n<region>sample=*sine\n',
      [],
      '<region> sample=a.wav key=1 sample=*silence\n<region>sample=*sine sample=*silence\n',
    ],
    [
      'none, and silence, stay as they are',
      '<region> key=1\n<region> sample=*Silence\n',
      [],
      '<region> key=1\n<region> sample=*Silence\n',
    ],
    [
      'in front of what the reader skips',
      '<group> sample=a.wav\n<region> what is this\n<region> /x=1\n',
      [],
      '<group> sample=a.wav\n<region> sample=*silence\n what is this\n<region> sample=*silence\n /x=1\n',
    ],
    [
      'in front of data, which has no end of its own',
      '<region> sample=a.wav base64data=AAAA\n',
      [],
      '<region> sample=a.wav sample=*silence base64data=AAAA\n',
    ],
  ])('%s', (_, before, loaded, after) => {
    const silent = [0, 1, 2].filter((one) => !loaded.includes(one));
    return becomes(before, loaded, after, silent);
  });
});

describe('embedded samples', () => {
  const before = lines(
    '<sample> name=a.wav base64data=QUJD',
    'REVG',
    '<sample> name=b.wav base64data=QUJD',
    '<sample> name=idle.wav base64data=QUJD',
    '<region> sample=a.wav key=60',
    '<region> sample=b.wav key=61',
  );

  test('go with the last region that plays them', () =>
    becomes(
      before,
      [1],
      lines(
        '<sample> name=b.wav base64data=QUJD',
        '<sample> name=idle.wav base64data=QUJD',
        '<region> sample=b.wav key=61',
      ),
    ));

  test('go when that region stays without', () =>
    becomes(
      before,
      [1],
      lines(
        '<sample> name=b.wav base64data=QUJD',
        '<sample> name=idle.wav base64data=QUJD',
        '<region> sample=a.wav key=60 sample=*silence',
        '<region> sample=b.wav key=61',
      ),
      [0],
    ));

  test('comments that would become part of their data go', () =>
    becomes(
      '<sample> name=b.wav base64data=QUJD\n<region> key=60 // 60\n// now 61\n<region> key=61\n',
      [1],
      '<sample> name=b.wav base64data=QUJD\n<region> key=61\n',
    ));

  test('stubs behind data', () =>
    becomes(
      '<region> sw_last=24\n<sample> name=b.wav base64data=QUJD',
      [],
      lines(
        '<sample> name=b.wav base64data=QUJD',
        `<global> ${stubComment}`,
        '<region> sw_last=24 hikey=-1 sample=*silence',
      ),
    ));
});

describe('stubs', () => {
  test.each<readonly [string, string, readonly number[], readonly string[]]>([
    [
      'a switch that goes stays a switch, once',
      '<global> sw_lokey=24 sw_hikey=26\n<region> sw_last=24\n<region> sw_last=25\n<region> sw_last=25 key=3\n',
      [0],
      [
        '<global> sw_lokey=24 sw_hikey=26',
        '<region> sw_last=24',
        stubComment,
        '<global>',
        '<region> sw_lokey=24 sw_hikey=26 sw_last=25 hikey=-1 sample=*silence',
      ],
    ],
    [
      'none for one that another region asks for, however it is written',
      '<region> sw_last=24 key=60\n<region> sw_last=c1 key=61\n',
      [1],
      ['<region> sw_last=c1 key=61'],
    ],
    [
      'every kind of switch',
      '<region> sw_lolast=24 sw_hilast=25 sw_down=26 sw_up=27 sw_previous=60\n<region>\n',
      [1],
      [
        '<region>',
        stubComment,
        '<global>',
        '<region> sw_lolast=24 sw_hilast=25 sw_down=26 sw_up=27 hikey=-1 sample=*silence',
      ],
    ],
    [
      'the last default, when it stood in a region that goes',
      '<global> sw_default=24\n<region> sw_default=25\n<region>\n',
      [1],
      [
        '<global> sw_default=24',
        '<region>',
        stubComment,
        '<global>',
        '<region> sw_default=25 hikey=-1 sample=*silence',
      ],
    ],
    [
      'not when one behind it stays',
      '<region> sw_default=25\n<global> sw_default=25\n<region>\n',
      [1],
      ['<global> sw_default=25', '<region>'],
    ],
    [
      'a default before the last: it may be the last one of a range',
      '<region> sw_default=24\n<global> sw_default=50\n<region>\n',
      [1],
      [
        '<global> sw_default=50',
        '<region>',
        stubComment,
        '<global>',
        '<region> sw_default=24 hikey=-1 sample=*silence',
        '<region> sw_default=50 hikey=-1 sample=*silence',
      ],
    ],
    [
      'controllers that players map by themselves, by all spellings',
      '<region> locc7=3\n<region> pan_cc010=4\n<region> start_locc11=1\n<region> locc1=1\n',
      [3],
      [
        '<region> locc1=1',
        stubComment,
        '<global>',
        '<region> amplitude_oncc7=100 hikey=-1 sample=*silence',
        '<region> pan_oncc10=100 hikey=-1 sample=*silence',
        '<region> amplitude_oncc11=100 hikey=-1 sample=*silence',
      ],
    ],
    [
      'not when a region that stays uses them',
      '<group> amplitude_oncc11=100\n<region> key=1\n<region> key=2 xfin_locc11=3\n',
      [0],
      ['<group> amplitude_oncc11=100', '<region> key=1'],
    ],
    [
      'under the offsets of the regions they stand for',
      '<control> note_offset=12\n<region> sw_last=24\n<control> note_offset=0\n<region> sw_last=26\n<region>\n',
      [2],
      [
        '<control> note_offset=12',
        '<control> note_offset=0',
        '<region>',
        stubComment,
        '<global>',
        '<control> note_offset=12 octave_offset=0',
        '<region> sw_last=24 hikey=-1 sample=*silence',
        '<control> note_offset=0 octave_offset=0',
        '<region> sw_last=26 hikey=-1 sample=*silence',
      ],
    ],
    [
      'under offsets of switches, and far ones',
      '<region> sw_last=1\n<control> octave_offset=10 note_offset=100 sw_note_offset=2\n<region>\n',
      [1],
      [
        '<control> octave_offset=10 note_offset=100 sw_note_offset=2',
        '<region>',
        stubComment,
        '<global>',
        '<control> note_offset=0 octave_offset=0 sw_note_offset=0 sw_octave_offset=0',
        '<region> sw_last=1 hikey=-1 sample=*silence',
      ],
    ],
  ])('%s', (_, before, loaded, after) => becomes(before, loaded, lines(...after)));

  test('take the line ends of the file, and end its last line', () =>
    becomes(
      '<region> sw_last=24\r\n<region> key=1',
      [1],
      `<region> key=1\r\n${stubComment}\r\n<global>\r\n<region> sw_last=24 hikey=-1 sample=*silence\r\n`,
    ));

  test('their numbers come behind those of the regions that stay', async () => {
    const text = '<region> sw_last=24\n<region>\n<region> sw_last=25\n<region> polyphony=1\n';
    const { trimmed } = await checkAgainstReader({ 'kit.sfz': text }, keepSet([1], [3]));
    expect([...trimmed.zones]).toEqual([
      [1, 0],
      [3, 1],
    ]);
    expect(trimmed.places).toEqual([2, 3]);
  });
});
