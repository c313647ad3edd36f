import { describe, expect, test } from 'vitest';
import { found, outline, read } from './reading.ts';

type Row = readonly [
  origin: string,
  text: string,
  outline: readonly string[],
  findings?: readonly string[],
];

const check = (rows: readonly Row[]): void => {
  for (const [origin, text, expected, findings = []] of rows) {
    test(`${origin}: ${JSON.stringify(text)}`, async () => {
      const document = await read(text);
      expect(outline(document)).toEqual(expected);
      expect(found(document.findings)).toEqual(findings);
    });
  }
};

describe('activation H: headers', () => {
  check([
    ['ParsingT, one header', '<region>key=60', ['<region>|key=60']],
    ['ParsingT, opcode on the next line', '<region>\nkey=60\n', ['<region>|key=60']],
    [
      'ParsingT, several on a line',
      '<group>key=60<region>vel=1 <region>',
      ['<group>|key=60', '<region>|vel=1', '<region>'],
    ],
    ['ParsingT, tabs as blanks', '<region>\tkey=60\t\tlovel=1', ['<region>|key=60|lovel=1']],
    ['ParsingT, CR', '<region>\rkey=60\rlovel=1\r', ['<region>|key=60|lovel=1']],
    ['ParsingT, CRLF', '<region>\r\nkey=60\r\nlovel=1\r\n', ['<region>|key=60|lovel=1']],
    ['ParsingT, an empty file', '', []],
    ['ParsingT, only comments', '// one\n/* two\n*/\n', []],
    ['ParsingT, low line and figures', '<a_1>x_2=3', ['<a_1>|x_2=3'], ['sfz-header-unknown 1 1']],
    [
      'ParsingT, headers tell capitals apart',
      '<region>key=1\n<REGION>key=2\n',
      ['<region>|key=1', '<REGION>|key=2'],
      ['sfz-header-unknown 2 1'],
    ],
    ['ParsingT, opcodes do not', '<region>KEY=60 LoVel=1', ['<region>|key=60|lovel=1']],
    [
      'ParsingT, a header without a name costs its line',
      '<region>key=1\n<>lokey=5 <region>\nhikey=6',
      ['<region>|key=1|hikey=6'],
      ['sfz-line-skipped 2 1'],
    ],
    [
      'ParsingT, a header of other signs too',
      '<ab@cd>lokey=5\n<region>key=1',
      ['<region>|key=1'],
      ['sfz-line-skipped 1 1'],
    ],
    [
      'a header left open',
      '<region\nkey=1\n<group>',
      ['<group>'],
      ['sfz-line-skipped 1 1', 'sfz-outside-header 2 1'],
    ],
    [
      'ParsingT, opcode before any header',
      'key=60 lokey=5\n<region>key=61',
      ['<region>|key=61'],
      ['sfz-outside-header 1 1', 'sfz-outside-header 1 8'],
    ],
    [
      'ParsingT, every header there is',
      '<control><global><master><group><region><curve><effect><midi><sample>',
      '<control> <global> <master> <group> <region> <curve> <effect> <midi> <sample>'.split(' '),
    ],
    ['an unknown opcode is kept', '<region>nonsense_9=a b c', ['<region>|nonsense_9=a b c']],
    ['Regions/underscore', '<region>sample_quality=2 a__b=1', ['<region>|sample_quality=2|a__b=1']],
  ]);
});

describe('activation H: what is neither', () => {
  check([
    [
      'Parser source, no blanks around the equals sign',
      '<region> key = 60 lokey=1\nhikey=2',
      ['<region>|hikey=2'],
      ['sfz-line-skipped 1 10'],
    ],
    [
      'Parser source, a word alone costs the rest of its line',
      '<region> key=1 lovel=2\nword <region> hikey=2\nhivel=4',
      ['<region>|key=1|lovel=2|hivel=4'],
      ['sfz-line-skipped 2 1'],
    ],
    [
      'a comment ends what is skipped',
      '<region> "a" /* \n*/ key=1',
      ['<region>|key=1'],
      ['sfz-line-skipped 1 10'],
    ],
    [
      'Parser source, another directive',
      '<region>\n#undef $a\nkey=1',
      ['<region>|key=1'],
      ['sfz-directive-broken 2 1'],
    ],
    [
      'a blank before the value is skipped in numbers, with a remark',
      '<region>key= 60',
      ['<region>|key= 60'],
      ['sfz-blank-value 1 9'],
    ],
    ['no value', '<region>key= lokey=5 hikey=', ['<region>|key=|lokey=5|hikey=']],
  ]);
});

describe('activation H: comments', () => {
  check([
    [
      'ParsingT, to the end of the line',
      '<region>key=1 // lokey=2\nhikey=3',
      ['<region>|key=1|hikey=3'],
    ],
    ['ParsingT, right behind a value', '<region>key=1//lokey=2', ['<region>|key=1']],
    ['ParsingT, block', '<region>key=1 /* <region>\nkey=2 */ hikey=3', ['<region>|key=1|hikey=3']],
    [
      'ParsingT, block ends a value',
      '<region>sample=a/* x */.wav',
      ['<region>|sample=a'],
      ['sfz-line-skipped 1 24'],
    ],
    ['not nested', '/* /* */ <region>key=1', ['<region>|key=1']],
    ['a slash more', '/*/ */<region>key=1 /**/ hikey=2', ['<region>|key=1|hikey=2']],
    ['no block inside a line comment', '// /*\n<region>key=1', ['<region>|key=1']],
    ['no line comment inside a block', '/* // */<region>key=1', ['<region>|key=1']],
    [
      'first version of the format: a single slash (ambiguity 15)',
      '/ title\n<region>key=1\n  /hikey=2 <region>\nhivel=3',
      ['<region>|key=1|hivel=3'],
      ['sfz-slash-line 1 1', 'sfz-slash-line 3 3'],
    ],
    ['a path is no comment', '<region>sample=a/b.wav key=1', ['<region>|sample=a/b.wav|key=1']],
    ['a path with two slashes is cut', '<region>sample=a//b.wav key=1', ['<region>|sample=a']],
  ]);
});

test('the same remark is made once, and of each kind at most twenty', async () => {
  const lines = Array.from({ length: 30 }, (_, i) => `word${String(i)}\nword0\n`).join('');
  const { findings } = await read(lines);
  expect(findings).toHaveLength(21);
  expect(findings[0]).toMatchObject({
    code: 'sfz-line-skipped',
    args: { text: 'word0', times: 31 },
  });
  expect(findings.at(-1)).toMatchObject({ code: 'sfz-remarks-more', args: { remarks: 10 } });
});
