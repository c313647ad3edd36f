import { describe, expect, test } from 'vitest';
import { found, outline, read } from './reading.ts';

type Row = readonly [
  origin: string,
  text: string,
  outline: readonly string[],
  findings?: readonly string[],
];

const rows: readonly Row[] = [
  ['ParsingT', '#define $KEY 60\n<region>key=$KEY', ['<region>|key=60']],
  [
    'ParsingT, the first word only',
    '#define $a 1 2 3\n<region>key=$a',
    ['<region>|key=1'],
    ['sfz-line-skipped 1 14'],
  ],
  ['ParsingT, the rest of its line counts', '<region>#define $a 1 key=$a', ['<region>|key=1']],
  [
    'ParsingT, several on a line',
    '#define $a 1 #define $b 2 <region> key=$a$b',
    ['<region>|key=12'],
  ],
  ['ParsingT, empty', '#define $a\n<region>key=1$a2', ['<region>|key=12']],
  [
    'ParsingT, defined again',
    '#define $a 1\n<region>key=$a\n#define $a 2\n<region>key=$a',
    ['<region>|key=1', '<region>|key=2'],
  ],
  [
    'ParsingT, the shortest name',
    '#define $abc foo\n#define $abcdef wrong\n<region>sample=$abcdef.wav',
    ['<region>|sample=foodef.wav'],
  ],
  [
    'SpecificBugs/wrong-replacements, the shortest in names of opcodes too',
    '#define $n 57\n#define $note wrong\n<region>key=$n<region>lokey=$note',
    ['<region>|key=57', '<region>|lokey=57ote'],
  ],
  [
    'ParsingT, one in another',
    '#define $A bar\n#define $B foo-$A-baz\n<region>sample=$B',
    ['<region>|sample=foo-bar-baz'],
  ],
  [
    'Parser source, defined later',
    '#define $B foo-$A\n#define $A bar\n<region>sample=$B',
    ['<region>|sample=foo-bar'],
  ],
  [
    'Parser source, what comes together is gone through again',
    '#define $a $b\n#define $bc 9\n<region>key=$ac',
    ['<region>|key=9'],
  ],
  [
    'ParsingT, in names',
    '#define $CC 7\n<region>amplitude_oncc$CC=100',
    ['<region>|amplitude_oncc7=100'],
  ],
  ['in names, with an alias', '#define $CC 07\n<region>gain_cc$CC=1', ['<region>|volume_oncc7=1']],
  ['a whole name', '#define $X LOKEY\n<region>$X=60', ['<region>|lokey=60']],
  [
    'a name that becomes none',
    '#define $X a-b\n<region>x$X=60\nkey=1',
    ['<region>|key=1'],
    ['sfz-line-skipped 2 9'],
  ],
  [
    'ParsingT, unknown',
    '<region>sample=a$nob.wav',
    ['<region>|sample=a.wav'],
    ['sfz-variable-unknown 1 9'],
  ],
  [
    'Parser source, no name',
    '<region>sample=a$.wav',
    ['<region>|sample=a.wav'],
    ['sfz-variable-unknown 1 9'],
  ],
  ['blanks in front of an empty one', '#define $e\n<region>sample=a $e', ['<region>|sample=a']],
  [
    'capitals count',
    '#define $a 1\n<region>key=$A',
    ['<region>|key='],
    ['sfz-variable-unknown 2 9'],
  ],
  ['no blank is needed', '#define$a 1\n<region>key=$a', ['<region>|key=1']],
  ['no variable', '#define a 1\n<region>key=1', ['<region>|key=1'], ['sfz-directive-broken 1 1']],
  [
    'a name is missing',
    '#define $ 1\n<region>key=1',
    ['<region>|key=1'],
    ['sfz-directive-broken 1 1'],
  ],
  ['a comment ends the value', '#define $a 1//2\n<region>key=$a', ['<region>|key=1']],
  [
    'not in comments',
    '// #define $a 1\n<region>key=5$a',
    ['<region>|key=5'],
    ['sfz-variable-unknown 2 9'],
  ],
  ['not in data', '#define $a 1\n<sample>base64data=$a', ['<sample>|base64data=$a']],
];

describe('activation H: #define', () => {
  for (const [origin, text, expected, findings = []] of rows) {
    test(`${origin}: ${JSON.stringify(text)}`, async () => {
      const document = await read(text);
      expect(outline(document)).toEqual(expected);
      expect(found(document.findings)).toEqual(findings);
    });
  }
});

test('an unknown variable is named', async () => {
  const { findings } = await read('<region>key=$nob hikey=$nob');
  expect(findings).toMatchObject([{ severity: 'warning', args: { variable: '$nob', times: 2 } }]);
});
