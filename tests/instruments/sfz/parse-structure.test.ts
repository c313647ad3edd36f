import { describe, expect, test } from 'vitest';
import { fromBase64 } from '../../../src/instruments/sfz/text/base64.ts';
import { structureOf, type SfzStructure } from '../../../src/instruments/sfz/structure/regions.ts';
import { found, read, regionsOf, root } from './reading.ts';

const structure = async (text: string): Promise<SfzStructure> => structureOf(await read(text));

describe('activation H: hierarchy', () => {
  test.each<readonly [string, string, readonly object[]]>([
    [
      'later levels win, in the order global, master, group, region',
      '<global>a=1 b=1 c=1 d=1<master>b=2 c=2 d=2<group>c=3 d=3<region>d=4',
      [{ a: '1', b: '2', c: '3', d: '4' }],
    ],
    [
      'a region may take over everything',
      '<group>sample=a.wav key=5<region><region>',
      [
        { sample: 'a.wav', key: '5' },
        { sample: 'a.wav', key: '5' },
      ],
    ],
    ['a group takes the place of the one before', '<group>a=1<group>b=2<region>', [{ b: '2' }]],
    ['a master ends its group', '<master>a=1<group>b=1<master>c=1<region>', [{ c: '1' }]],
    [
      'a master goes on over several groups',
      '<master>a=1<group>b=1<region><group>c=1<region>',
      [
        { a: '1', b: '1' },
        { a: '1', c: '1' },
      ],
    ],
    [
      'a global ends master and group',
      '<global>x=1<master>a=1<group>b=1<region><global>y=2<region>',
      [{ x: '1', a: '1', b: '1' }, { y: '2' }],
    ],
    ['of two in one header the last wins', '<region>key=1 key=2', [{ key: '2' }]],
    [
      'other headers do not end a group',
      '<group>a=1<control>note_offset=0<curve>v000=0<foo>b=1<region>',
      [{ a: '1' }],
    ],
    ['what an unknown header holds is left out', '<region>a=1<foo>b=1', [{ a: '1' }]],
  ])('%s: %j', async (_, text, regions) => {
    expect(regionsOf(await read(text))).toEqual(regions);
  });

  test('opcodes stand in the order in which they apply', async () => {
    const { regions } = await structure('<group>key=60 lokey=50<region>hikey=70 key=61');
    expect(regions[0]!.opcodes.map(({ name, value }) => name + value)).toEqual(
      'key60 lokey50 hikey70 key61'.split(' '),
    );
    expect(regions[0]).toMatchObject({ number: 0, place: { start: 22, end: 30 } });
  });

  test('regions are numbered in reading order', async () => {
    const { regions } = await structure('<region>#define $a 1\n<group><region><region>');
    expect(regions.map(({ number }) => number)).toEqual([0, 1, 2]);
  });
});

describe('activation H: control', () => {
  test.each<readonly [string, string, readonly object[]]>([
    ['none', '<region>', [{ defaultPath: '', keptPath: '', noteOffset: 0, switchOffset: 0 }]],
    [
      'default_path, with slashes',
      '<control>default_path=a\\b/c <region>',
      [{ defaultPath: 'a/b/c', keptPath: 'a/b/c' }],
    ],
    [
      'default_path_reset (ambiguity 8)',
      '<control>default_path=a/<region><control>note_offset=1<region><control>default_path=b/<region>',
      [
        { defaultPath: 'a/', keptPath: 'a/' },
        { defaultPath: '', keptPath: 'a/' },
        { defaultPath: 'b/', keptPath: 'b/' },
      ],
    ],
    [
      'an empty default_path',
      '<control>default_path=a/<control>default_path=\n<region>',
      [{ defaultPath: '', keptPath: '' }],
    ],
    [
      'FilesT: offsets go on, and hold for regions behind them',
      '<region><control>note_offset=1<region><control>octave_offset=1<region><control><region>',
      [{ noteOffset: 0 }, { noteOffset: 1 }, { noteOffset: 13 }, { noteOffset: 13 }],
    ],
    [
      'suite 00/01: octave_offset=-1',
      '<control>octave_offset=-1<region>',
      [{ noteOffset: -12, switchOffset: 0 }],
    ],
    ['FilesT: -1-12', '<control>note_offset=-1 octave_offset=-1<region>', [{ noteOffset: -13 }]],
    [
      'for switches on top',
      '<control>sw_note_offset=2 sw_octave_offset=1<region>',
      [{ noteOffset: 0, switchOffset: 14 }],
    ],
    [
      'whole numbers, and no others',
      '<control>note_offset=2.9 octave_offset=x<region>',
      [{ noteOffset: 2 }],
    ],
    [
      'held to what is documented',
      '<control>note_offset=1e9 octave_offset=-99<region>',
      [{ noteOffset: 127 - 120 }],
    ],
  ])('%s: %j', async (_, text, controls) => {
    const { regions } = await structure(text);
    expect(regions.map(({ control }) => control)).toMatchObject(controls);
  });

  test.each<readonly [string, string, readonly (readonly [number, number])[]]>([
    [
      'set_cc',
      '<control>set_cc1=64 set_cc2=0',
      [
        [1, 64],
        [2, 0],
      ],
    ],
    ['the last wins', '<control>set_cc1=64<control>set_cc1=65.9', [[1, 65]]],
    [
      'set_hdcc and set_realcc',
      '<control>set_hdcc3=0.5 set_realcc4=1',
      [
        [3, 64],
        [4, 127],
      ],
    ],
    [
      'held to 0-127',
      '<control>set_cc1=999 set_cc2=-5 set_hdcc3=7',
      [
        [1, 127],
        [2, 0],
        [3, 127],
      ],
    ],
    ['no number', '<control>set_cc1=x', []],
    ['only in <control>', '<global>set_cc1=64<region>set_cc2=1', []],
    ['not what only looks like it', '<control>label_cc1=64 set_cc=1', []],
  ])('FilesT, %s: %j', async (_, text, initial) => {
    expect([...(await structure(text)).initial]).toEqual(initial);
  });
});

describe('activation D: sw_default', () => {
  test.each<readonly [string, string, readonly (readonly [number, number])[]]>([
    [
      'every one, whatever its level',
      '<global>sw_default=1<master>sw_default=2<group>sw_default=3<region>sw_default=4 sw_default=c4',
      [
        [1, 1],
        [2, 2],
        [3, 3],
        [4, 4],
        [60, 60],
      ],
    ],
    [
      'SynthT: moved by the offsets',
      '<control>octave_offset=1 note_offset=-1<global>sw_default=48',
      [[59, 48]],
    ],
    [
      'and by those of switches',
      '<control>note_offset=1 sw_note_offset=2<global>sw_default=48',
      [[51, 50]],
    ],
    [
      'by those that hold there',
      '<global>sw_default=48<control>note_offset=1<global>sw_default=48',
      [
        [48, 48],
        [49, 48],
      ],
    ],
    ['none', '<control>note_offset=5<global>sw_default=-1 sw_default=x', [[-1, -1]]],
    ['not in what is no part of the hierarchy', '<foo>sw_default=1<curve>sw_default=2', []],
  ])('%s: %j', async (_, text, defaults) => {
    const found = (await structure(text)).defaults;
    expect(found.map(({ key, unshifted }) => [key, unshifted])).toEqual(defaults);
  });
});

describe('curves', () => {
  const curve = async (opcodes: string, index = 7): Promise<readonly number[] | undefined> =>
    (await structure(`<curve>${opcodes}`)).curves.get(index);

  test('without points it leads from 0 to 1', async () => {
    const values = await curve('curve_index=7');
    expect(values).toHaveLength(128);
    for (const [at, value] of values!.entries()) expect(value).toBeCloseTo(at / 127, 12);
  });

  test.each<readonly [string, string, Readonly<Record<number, number>>]>([
    ['points', 'curve_index=7 v000=1 v064=0 v127=0.5', { 0: 1, 32: 0.5, 64: 0, 127: 0.5 }],
    [
      'before and behind them',
      'curve_index=7 v010=0 v020=1',
      { 0: 0, 5: 0, 10: 0, 15: 0.5, 20: 1, 99: 1, 127: 1 },
    ],
    ['a number without zeros', 'curve_index=7 v5=0.25', { 5: 0.25 }],
    ['below 0', 'curve_index=7 v000=-1 v127=1', { 0: -1, 127: 1 }],
    ['no such point', 'curve_index=7 v128=9 v1000=9 vx=9 v003=x', { 127: 1 }],
  ])('%s', async (_, opcodes, expected) => {
    const values = (await curve(opcodes))!;
    expect(values).toHaveLength(128);
    for (const [at, value] of Object.entries(expected)) {
      expect(values[Number(at)]).toBeCloseTo(value, 12);
    }
  });

  test('no number, or none that an opcode could name', async () => {
    expect(
      (await structure('<curve>v000=1<curve>curve_index=-1<curve>curve_index=256')).curves.size,
    ).toBe(0);
  });

  test('the last of one number counts, which may be that of a built-in one', async () => {
    expect((await curve('curve_index=4 v000=1<curve>curve_index=4 v000=0.5', 4))![0]).toBe(0.5);
  });
});

describe('activation H: <sample>', () => {
  test('bytes by name, on several lines', async () => {
    const { embedded, findings } = await structure(
      '<region>sample=click one.wav\n<sample> name=click one.wav base64data=UklG\r\nRg==\n<region>',
    );
    expect([...embedded]).toEqual([['click one.wav', Uint8Array.from([0x52, 0x49, 0x46, 0x46])]]);
    expect(findings).toEqual([]);
  });

  test.each([
    ['no name', '<sample>base64data=AAAA'],
    ['no data', '<sample>name=a'],
    ['other data', '<sample>name=a data=|spp'],
    ['other signs', '<sample>name=a base64data=AA*A'],
    ['cut', '<sample>name=a base64data=AAAAA'],
  ])('%s: a remark', async (_, text) => {
    const { embedded, findings } = await structure(text);
    expect(embedded.size).toBe(0);
    expect(found(findings)).toEqual(['sfz-embedded-broken 1 1']);
    expect(findings[0]!.file).toBe(root);
  });

  /** RFC 4648, section 10. */
  test.each([
    ['', ''],
    ['Zg==', 'f'],
    ['Zm8=', 'fo'],
    ['Zm9v', 'foo'],
    ['Zm9vYg==', 'foob'],
    ['Zm9vYmE=', 'fooba'],
    ['Zm9vYmFy', 'foobar'],
    ['Zm9vYmE', 'fooba'],
  ])('base 64 %j', (text, expected) => {
    expect(new TextDecoder().decode(fromBase64(text) ?? undefined)).toBe(expected);
  });
});
