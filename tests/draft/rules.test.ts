import { describe, expect, test } from 'vitest';
import { draftTemplate } from '../../src/draft/draft-template.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { countNotes } from '../../src/playback/count-notes.ts';
import { routeAll, templateOf } from './route-all.ts';
import { cueOf, oneTrack, type TestTrack } from './track-file.ts';

const draftOf = (...cues: readonly Uint8Array[]): string =>
  draftTemplate(
    cues.map((bytes, i) => ({
      id: `1m${i + 1}`,
      state: 'read',
      parts: countNotes(readMidi(bytes, 'cue.mid')),
    })),
    ['cues'],
  ).text;

/** The lines of a section, comments left out unless wanted. */
const section = (text: string, key: string, comments = false): readonly string[] => {
  const lines = text.split('\n');
  const from = lines.indexOf(`${key}:`) + 1;
  const end = lines.findIndex((line, i) => i >= from && !line.startsWith('  '));
  return lines
    .slice(from, end)
    .map((line) => line.slice(2))
    .filter((line) => comments || !line.startsWith('#'));
};

const named = (...names: readonly string[]): Uint8Array => cueOf(names.map((name) => ({ name })));

const rulesFor = (...tracks: readonly (string | TestTrack)[]): readonly string[] =>
  section(
    draftOf(cueOf(tracks.map((one) => (typeof one === 'string' ? { name: one } : one)))),
    'routes',
  );

describe('the rules for tracks of similar names', () => {
  const tables: readonly (readonly [
    what: string,
    tracks: readonly (string | TestTrack)[],
    rules: readonly string[],
  ])[] = [
    ['one track', ['Harp'], ['- { track: "Harp", instrument: harp }']],
    [
      'several without articulations',
      ['Hn 1', 'Hn 2', 'HN  1'],
      ['- { track: ["Hn 1", "Hn 2"], instrument: hn }'],
    ],
    [
      'the articulation varies: a capture',
      ['Vc leg', 'Vc stac'],
      ['- { track: "Vc {art}", instrument: vc, articulation: "{art}" }'],
    ],
    [
      'desks have a pattern each, the longer first',
      ['Vln leg', 'Vln 1 leg', 'Vln 1 pizz'],
      ['- { track: ["Vln 1 {art}", "Vln {art}"], instrument: vln, articulation: "{art}" }'],
    ],
    [
      'one articulation for all: nothing is captured',
      ['Hn 1 sus', 'Hn 2 sus'],
      ['- { track: ["Hn 1 sus", "Hn 2 sus"], instrument: hn }'],
    ],
    [
      'with and without an articulation',
      ['Vc', 'Vc leg'],
      [
        '- { track: "Vc", instrument: vc }',
        '- { track: "Vc {art}", instrument: vc, articulation: "{art}" }',
      ],
    ],
    [
      'articulations in two places are spelled out, before the capture that would take them',
      ['Vc leg', 'Vc stac', 'Vc leg 1 sord'],
      [
        '- { track: "Vc leg 1 sord", instrument: vc, articulation: "legato con sordino" }',
        '- { track: "Vc {art}", instrument: vc, articulation: "{art}" }',
      ],
    ],
    [
      'a capture waits for the rules whose tracks it would take',
      ['Str leg', 'Str hi leg', 'Str pizz', 'Str hi pizz', 'Str solo'],
      [
        '- { track: "Str hi {art}", instrument: str-hi, articulation: "{art}" }',
        '- { track: "Str solo", instrument: str-solo }',
        '- { track: "Str {art}", instrument: str, articulation: "{art}" }',
      ],
    ],
    [
      'two captures that would take each other’s: one is spelled out',
      ['Vc leg', 'Vc long', 'Vc lLeg', 'Vc lStac'],
      [
        '- { track: "Vc lLeg", instrument: vc-l, articulation: "legato" }',
        '- { track: "Vc lStac", instrument: vc-l, articulation: "staccato" }',
        '- { track: "Vc {art}", instrument: vc, articulation: "{art}" }',
      ],
    ],
    [
      'a switch track by its name drives the copy of its notes',
      [
        { name: 'Cel', keys: [60, 72] },
        { name: 'Cel switches', keys: [24, 26] },
      ],
      ['- { join: ["Cel", "Cel switches"], instrument: cel }'],
    ],
    [
      'so do switches that are program changes; but not without their notes',
      [
        'Hn a4 sus',
        { name: 'Hn switches', keys: [], programs: [4, 5] },
        { name: 'Tpt switches', keys: [], programs: [4] },
        { name: 'Tbn', keys: [], programs: [4] },
      ],
      ['- { join: ["Hn a4 sus", "Hn switches"], instrument: hn }'],
    ],
    [
      'the switches of the second desk',
      [
        { name: 'Vc 1', keys: [60] },
        { name: 'Vc 2', keys: [60] },
        { name: 'Vc 2 KS', keys: [0] },
      ],
      ['- { join: ["Vc 2", "Vc 2 KS"], instrument: vc }', '- { track: "Vc 1", instrument: vc }'],
    ],
    [
      'switches of nobody in particular',
      [
        { name: 'Vc 1', keys: [60] },
        { name: 'Vc 2', keys: [60] },
        { name: 'Vc KS', keys: [0] },
      ],
      ['- { track: ["Vc 1", "Vc 2", "Vc KS"], instrument: vc }'],
    ],
    [
      'a switch track by its name, whose keys are those of the notes, is none',
      [
        { name: 'Vc', keys: [48, 60] },
        { name: 'Vc sw', keys: [55] },
      ],
      ['- { track: ["Vc", "Vc sw"], instrument: vc }'],
    ],
    [
      'a click is ignored; a click that is an instrument is not',
      ['Click', 'Tongue click'],
      [
        '- { track: "Click", ignore: true }',
        '- { track: "Tongue click", instrument: tongue-click }',
      ],
    ],
    [
      'signs of patterns stand for themselves',
      ['FX *{a}\\ 1'],
      [String.raw`- { track: "FX \\*\\{a\\}\\\\ 1", instrument: a }`],
    ],
    [
      'very long names that begin alike have one pattern',
      [`${'x'.repeat(200)} 1`, `${'x'.repeat(200)} 2`],
      ['- track: "' + 'x'.repeat(200) + '*"', '  instrument: ' + 'x'.repeat(40)],
    ],
    [
      'what would act on a terminal, or YAML does not allow, is escaped',
      ['a\x9b \u202e \u{e0001} \ufffe b\x00'],
      [String.raw`- { track: "a\x9b \u202e \U000e0001 \ufffe b\u0000", instrument: a-b }`],
    ],
    [
      'a track without notes has no rule',
      [{ name: 'Empty', keys: [] }, 'Harp'],
      ['- { track: "Harp", instrument: harp }'],
    ],
  ];
  test.each(tables)('%s', (_, tracks, rules) => {
    expect(rulesFor(...tracks)).toEqual(rules);
  });

  test('long lists stand below each other', () => {
    const names = Array.from({ length: 9 }, (_, i) => `Taiko ensemble ${i + 1}`);
    expect(rulesFor(...names)).toEqual([
      '- track:',
      ...names.map((name) => `    - "${name}"`),
      '  instrument: taiko-ensemble',
    ]);
  });
});

test('the words that captures hold are in names', () => {
  const text = draftOf(named('Vln 1 Lég', 'Vln 1 con-sord', 'Vln 2 sord trem', 'Hn sus'));
  expect(section(text, 'names')).toEqual([
    '"con-sord": con sordino',
    '"leg": legato',
    '"sord trem": con sordino tremolo',
  ]);
});

describe('tracks that only their channel tells apart', () => {
  test('a file of one track: an instrument for each channel', async () => {
    const file = oneTrack({ name: 'Sketch', channel: [2, 10] });
    const text = draftOf(file);
    expect(section(text, 'routes')).toEqual([
      '- { track: "Sketch", channel: 2, instrument: sketch-channel-2 }',
      '- { track: "Sketch", channel: 10, instrument: sketch-channel-10 }',
    ]);
    const { destinations } = routeAll(await templateOf(text), file);
    expect(destinations.map(({ instruments }) => instruments)).toEqual([
      ['sketch-channel-2'],
      ['sketch-channel-10'],
    ]);
  });

  test('no name: channel and, where there are several, port', () => {
    const text = draftOf(
      cueOf([
        { name: null, channel: 1, port: 1 },
        { name: '', channel: 1, port: 2 },
        { name: 'Harp', channel: 3, port: 2 },
      ]),
    );
    expect(section(text, 'routes')).toEqual([
      '- { track: "", port: 1, channel: 1, instrument: port-1-channel-1 }',
      '- { track: "", port: 2, channel: 1, instrument: port-2-channel-1 }',
      '- { track: "Harp", instrument: harp }',
    ]);
  });

  test('one track of many on several channels stays together', () => {
    const harp = { name: 'Harp', channel: [1, 2] };
    expect(rulesFor(harp, 'Vc')).toEqual([
      '- { track: "Harp", instrument: harp }',
      '- { track: "Vc", instrument: vc }',
    ]);
  });
});

describe('ids of instruments', () => {
  test.each([
    ['Große Trommel', 'grosse-trommel'],
    ['Célesta (old)', 'celesta-old'],
    ['808', 'instrument-808'],
    ['Null', 'instrument-null'],
    ['Скрипка', 'instrument'],
    ['–', 'instrument'],
    ['x'.repeat(80), 'x'.repeat(40)],
  ])('%s: %s', (name, id) => {
    const [entry] = section(draftOf(named(name)), 'instruments');
    expect(entry).toBe(`${id}: { file: instruments/${id}.sf2 }  # fill in`);
  });

  test('no id twice', () => {
    const text = draftOf(named('Скрипка', 'Альт', 'Bass!', 'bass?', 'Bäss 2 x', 'Bass x'));
    expect(section(text, 'instruments').map((line) => line.split(':')[0])).toEqual([
      'instrument',
      'instrument-2',
      'bass',
      'bass-x',
    ]);
  });
});

describe('comments', () => {
  test('say what was seen, keys with their numbers', () => {
    // By hand: C2 is key 36, E5 76; G0 and G#0 (19, 20) are short, an octave and more below.
    const harp = { name: 'Harp', channel: 4, keys: [36, 76, 50] };
    const text = draftOf(
      cueOf([{ ...harp, shortKeys: [20] }]),
      cueOf([{ ...harp, port: 3, shortKeys: [19] }]),
      named('Vc'),
    );
    expect(section(text, 'instruments', true).slice(0, 3)).toEqual([
      '# Harp',
      '# 2 cues, 8 notes, keys C2-E5 (36-76), velocities 80; ports 1, 3, channel 4; likely switches G0',
      '# (19), G#0 (20)',
    ]);
  });

  test('count the cues with notes, not those with switches alone', () => {
    const switches = { name: 'Hn KS', keys: [], programs: [4] };
    const text = draftOf(cueOf([{ name: 'Hn' }, switches]), cueOf([switches, { name: 'Vc' }]));
    expect(section(text, 'instruments', true)[1]).toMatch(/^# 1 cue, 1 note, /);
  });

  test('point out what may be switches, and what may be a guide', () => {
    const text = draftOf(
      cueOf([
        { name: 'Vc 1', keys: [48, 60, 62] },
        { name: 'Vc 2', keys: [24, 26] },
        { name: 'Guide vox' },
      ]),
    );
    const comments = section(text, 'routes', true).filter((line) => line.startsWith('#'));
    expect(comments.join(' ')).toMatch(/octave or more away from the rest: "Vc 2"\. .*"Guide vox"/);
  });

  test('names in them are short and can not act on a terminal', () => {
    const text = draftOf(named('Vc\x1b[2J\n  x: 1', `${'ab '.repeat(40)}end`, 'A\u202e\ufffeb'));
    const names = section(text, 'instruments', true).filter((line) => /^# (?!1 cue)/.test(line));
    expect(names.slice(0, 3)).toEqual([
      '# Vc\\x1b[2J x: 1',
      `# ${'ab '.repeat(20)}…`,
      '# A\\u202e\ufffdb',
    ]);
  });
});
