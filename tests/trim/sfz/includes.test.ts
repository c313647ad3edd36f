import { expect, test } from 'vitest';
import { checkAgainstReader } from './against-reader.ts';
import { keepSet } from './trimming.ts';

type Texts = Readonly<Record<string, string>>;

test.each<readonly [string, Texts, readonly number[], Texts]>([
  [
    'an include loses regions under its own name',
    { 'kit.sfz': '#include "sub/a.sfz"\n', 'sub/a.sfz': '<region> key=1\n<region> key=2\n' },
    [1],
    { 'kit.sfz': '#include "sub/a.sfz"\n', 'sub/a.sfz': '<region> key=2\n' },
  ],
  [
    'one that is left without anything stays',
    { 'kit.sfz': '#include "a.sfz"\n<region>\n', 'a.sfz': '// drums\n<region> key=1\n' },
    [1],
    { 'kit.sfz': '#include "a.sfz"\n<region>\n', 'a.sfz': '// drums\n' },
  ],
  [
    'the same one twice loses two different regions',
    {
      'kit.sfz': '#define $k 1\n#include "a.sfz" // one\n#define $k 2\n#include "a.sfz"\n',
      'a.sfz': '<region> key=$k\n<region> lokey=$k\n',
    },
    [0, 3],
    {
      'kit.sfz': '#define $k 1\n#include "a.sfz" // one\n#define $k 2\n#include "a-2.sfz"\n',
      'a.sfz': '<region> key=$k\n',
      'a-2.sfz': '<region> lokey=$k\n',
    },
  ],
  [
    'whole at one place, it keeps its name there',
    {
      'kit.sfz': '#include "a.sfz"\n<group>\n#include "a.sfz"\n#include "a.sfz"\n',
      'a.sfz': '<region> key=1\n<region> key=2\n',
    },
    [1, 2, 3, 5],
    {
      'kit.sfz': '#include "a-2.sfz"\n<group>\n#include "a.sfz"\n#include "a-2.sfz"\n',
      'a-2.sfz': '<region> key=2\n',
      'a.sfz': '<region> key=1\n<region> key=2\n',
    },
  ],
  [
    'includes within includes',
    {
      'kit.sfz': '#include "sub/a.sfz"\n<group>\n#include "sub\\a.sfz"\n',
      'sub/a.sfz': '<group> /* g */\n#include "sub/b.sfz"\n',
      'sub/b.sfz': '<region> key=1\n<region> key=2\n',
    },
    [0, 2, 3],
    {
      'kit.sfz': '#include "sub/a-2.sfz"\n<group>\n#include "sub\\a.sfz"\n',
      'sub/a-2.sfz': '<group> /* g */\n#include "sub/b-2.sfz"\n',
      'sub/b-2.sfz': '<region> key=1\n',
      'sub/a.sfz': '<group> /* g */\n#include "sub/b.sfz"\n',
      'sub/b.sfz': '<region> key=1\n<region> key=2\n',
    },
  ],
  [
    'names that are taken are passed over',
    {
      'kit.sfz': '#include "a.sfz" #include "a.sfz" #include "a.sfz" #include "A-3.sfz"',
      'a.sfz': '<region> key=1\n<region> key=2\n',
      'A-2.SFZ': 'another',
      'a-3.sfz': '',
    },
    [0, 1, 2],
    {
      'kit.sfz': '#include "a.sfz" #include "a-4.sfz" #include "a-5.sfz" #include "A-3.sfz"',
      'a.sfz': '<region> key=1\n<region> key=2\n',
      'a-4.sfz': '<region> key=1\n',
      'a-5.sfz': '',
      'a-3.sfz': '',
    },
  ],
  [
    'a path with variables keeps those that do not stand at its end',
    {
      'kit.sfz':
        '#define $d sub\n#define $f sub/a.sfz\n#include "$d/a.sfz"\n#include "$f"\n#include "sub/a.sfz"\n',
      'sub/a.sfz': '<region> key=1\n<region> key=2\n',
    },
    [1, 3, 4, 5],
    {
      'kit.sfz':
        '#define $d sub\n#define $f sub/a.sfz\n#include "$d/a-2.sfz"\n#include "sub/a-2.sfz"\n#include "sub/a.sfz"\n',
      'sub/a-2.sfz': '<region> key=2\n',
      'sub/a.sfz': '<region> key=1\n<region> key=2\n',
    },
  ],
  [
    'opcodes of a region in another file go with it',
    {
      'kit.sfz': '<region> key=1 #include "a.sfz" hivel=3 // of a\n<region> key=9\n',
      'a.sfz': 'lovel=2 /* c */ lorand=0\n// next\n<region> key=2\n',
    },
    [1, 2],
    {
      'kit.sfz': '#include "a.sfz" hivel=3 // of a\n<region> key=9\n',
      'a.sfz': '// next\n<region> key=2\n',
    },
  ],
  [
    'and those that come back behind an include',
    {
      'kit.sfz': '<region> key=1 #include "a.sfz" hivel=3 // of a\n<region> key=9\n',
      'a.sfz': 'lovel=2 /* c */ lorand=0\n// next\n<region> key=2\n',
    },
    [0, 2],
    {
      'kit.sfz': '<region> key=1 #include "a.sfz"\n<region> key=9\n',
      'a.sfz': 'lovel=2 /* c */ lorand=0\n// next\n',
    },
  ],
  [
    'opcodes of a kept group do not change hands',
    {
      'kit.sfz': '<group> lovel=1 #include "a.sfz" key=5\n',
      'a.sfz': 'hivel=9\n<region>\n<group>',
    },
    [],
    { 'kit.sfz': '<group> lovel=1 #include "a.sfz" key=5\n', 'a.sfz': 'hivel=9\n<group>' },
  ],
])('%s', async (_, before, loaded, after) => {
  const { texts, trimmed } = await checkAgainstReader(before, keepSet(loaded));
  expect(texts).toEqual(after);
  expect(trimmed.files[0]!.path).toBe('kit.sfz');
});

test('a silent region whose last opcode is in another file', async () => {
  const contents = {
    'kit.sfz': '<region> #include "a.sfz"\n<region> #include "a.sfz"\n',
    'a.sfz': 'sample=a.wav\nkey=60\n',
  };
  const { texts } = await checkAgainstReader(contents, keepSet([0], [1]));
  expect(texts).toEqual({
    'kit.sfz': '<region> #include "a.sfz"\n<region> #include "a-2.sfz"\n',
    'a.sfz': 'sample=a.wav\nkey=60\n',
    'a-2.sfz': 'sample=a.wav\nkey=60 sample=*silence\n',
  });
});
