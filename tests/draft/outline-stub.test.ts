import { describe, expect, test } from 'vitest';
import { draftTemplate } from '../../src/draft/draft-template.ts';
import type { Draft } from '../../src/draft/draft.ts';
import { SwitchPresses } from '../../src/draft/switch-presses.ts';
import { parseOutline } from '../../src/instruments/outline/reading/parse-outline.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { countNotes } from '../../src/playback/count-notes.ts';
import { cueOf, type TestTrack } from './track-file.ts';

type Cues = readonly (readonly TestTrack[])[];

/** Drafts from cues 1m1, 1m2 … with these tracks. */
const draftOf = (...cues: Cues): Draft => draftBy(4, cues);

const draftBy = (middleC: number, cues: Cues): Draft => {
  const presses = new SwitchPresses();
  const played = cues.map((tracks, at) => {
    const id = `1m${String(at + 1)}`;
    const score = readMidi(cueOf(tracks), `${id}.mid`);
    const parts = countNotes(score);
    presses.add(id, score, parts);
    return { id, state: 'read' as const, parts };
  });
  return draftTemplate(played, ['cues'], [], {
    folder: 'show/outlines',
    fromTemplate: 'outlines',
    middleC,
    pressesOf: (part) => presses.of(part),
  });
};

const stubOf = (draft: Draft, instrument: string): string =>
  draft.outlines.find((one) => one.instrument === instrument)!.text;

/** The lines of the stub from `articulations:` on, without comments. */
const articulationsIn = (text: string): readonly string[] =>
  text
    .slice(text.indexOf('\narticulations:\n') + 1)
    .split('\n')
    .filter((line) => !/^ *(#|$)/.test(line));

const names = (text: string): readonly string[] =>
  articulationsIn(text).flatMap((line) => /^ {2}(\S.*):$/.exec(line)?.[1] ?? []);

/** Twenty quarters: enough for a few short notes two octaves below to look like switches. */
const tune = Array.from({ length: 20 }, (_, at) => 60 + (at % 8));

test('each new instrument has an outline, and the template names it', () => {
  const { text, outlines } = draftOf([{ name: 'Harp' }, { name: 'Vc leg' }, { name: 'Click' }]);
  expect(outlines.map(({ instrument, path, isThere }) => [instrument, path, isThere])).toEqual([
    ['harp', 'show/outlines/harp.yaml', false],
    ['vc', 'show/outlines/vc.yaml', false],
  ]);
  expect(text).toContain('  harp: { outline: outlines/harp.yaml }  # fill in\n');
  expect(text).toContain('  vc: { outline: outlines/vc.yaml }  # fill in\n');
});

const small = draftOf(
  [{ name: 'Solo', keys: tune, shortKeys: [24, 25, 24] }],
  [{ name: 'Solo', keys: [...tune, 72], shortKeys: [25, 26] }],
);

test('the whole of a small one', async () => {
  await expect(stubOf(small, 'solo')).toMatchFileSnapshot('outline-stub.yaml.golden');
});

const read = (text: string): ReturnType<typeof parseOutline> =>
  parseOutline('outline.yaml', new TextEncoder().encode(text));

describe('a stub is read as an outline', () => {
  test('what was seen is in it, and the rest is still to be filled in', () => {
    const { outline, findings } = read(stubOf(small, 'solo'));
    expect(outline.middleC).toBe(4);
    expect(
      outline.articulations.map(({ name, choice, keys }) => ({ name, choice, keys })),
    ).toMatchObject([
      { name: 'articulation at C1', choice: { kind: 'switch' }, keys: [[60, 72]] },
      { name: 'articulation at C#1', choice: { kind: 'switch' }, keys: [[60, 72]] },
      { name: 'articulation at D1', choice: { kind: 'switch' }, keys: [[60, 72]] },
    ]);
    // Rate, bits, channels, microphones, two readings; eight of each articulation.
    expect(findings.map(({ code, args }) => [code, args])).toEqual([
      ['outline-open', { count: 6 + 3 * 8 }],
    ]);
  });

  test('each example in its comments is one that can be copied', () => {
    const stub = stubOf(draftOf([{ name: 'Harp' }]), 'harp');
    const examples: Readonly<Record<string, readonly string[]>> = {
      sampled: ['C2..C6 every 3', '[C2, E2, G#2]'],
      stretch: ['up', 'down', 'nearest'],
      layers: ['{ velocity: [1-40, 41-127] }', '{ cc1: [0-63, 64-127] }', '3', '{ cc1: 3 }'],
      'round-robins': ['4', '{ count: 4, borrow: 2 }'],
      seconds: ['8'],
      releases: ['yes', '{ seconds: 1.2, at: release }'],
      legato: ['yes', '{ intervals: 12, seconds: 0.6, overlap: 80 ms, returns: yes }'],
      measured: ['1.2 GiB'],
      switch: ['C1', 'program 5', '"cc 32: 0-20"', 'channel 3', 'none'],
    };
    for (const [key, values] of Object.entries(examples)) {
      for (const value of values) {
        expect(stub, value).toContain(value);
        // Takes of the keys around can only be told once it is known which keys there are.
        const borrows = value.includes('borrow');
        const text = stub
          .replace(`    ${key}: "?"`, `    ${key}: ${value}`)
          .replace(
            '    sampled: "?"',
            borrows ? '    sampled: C2..C6 every 3' : '    sampled: "?"',
          );
        expect(text).not.toBe(stub);
        expect(
          read(text).findings.map(({ code }) => code),
          value,
        ).toEqual(['outline-open']);
      }
    }
    const like = '\n  tremolo: { like: as played, switch: C#1, seconds: 6 }\n';
    expect(stub).toContain('#   tremolo: { like: sustain, switch: C#1, seconds: 6 }\n');
    expect(read(stub.trimEnd() + like).outline.articulations).toHaveLength(2);
    expect(stub).toContain('#   switches: { from: C1, names: [sustain, ~, tremolo] }\n');
    const row = stub
      .replace('\narticulations:\n', '\nswitches: { from: C1, names: [as played, ~, tremolo] }$&')
      .replace('    switch: "?"\n', '');
    expect(
      read(`${row.trimEnd()}\n  tremolo:\n`).outline.articulations.map(({ choice }) => choice),
    ).toMatchObject([{ test: { kind: 'key', key: 24 } }, { test: { kind: 'key', key: 26 } }]);
    expect(stub).toContain('#   when: { velocity: 100-127 }, or when: player-decides\n');
    const when = stub.replace('    keys:', '    when: { velocity: 100-127 }\n$&');
    expect(read(when).outline.articulations[0]!.when.velocity).toEqual([100, 127]);
    const decides = stub
      .replace('    keys:', '    when: player-decides\n$&')
      .replace('    switch: "?"\n', '');
    expect(read(decides).outline.articulations[0]!.choice.kind).toBe('player');
    expect(stub).toContain('#   [close, tree, hall]\n');
    const loaded = stub.replace('microphones: "?"', 'microphones: [close, tree, hall]');
    expect(read(loaded).outline.articulations[0]!.microphones).toEqual(['close', 'tree', 'hall']);
  });
});

describe('middle C', () => {
  const cues = [[{ name: 'Solo', keys: tune, shortKeys: [24, 25, 24] }]];

  test.each([
    [3, 'C0', 'C3-G3', 'C4'],
    [4, 'C1', 'C4-G4', 'C3'],
    [5, 'C2', 'C5-G5', 'C4'],
  ])('as C%d: other names, the same keys', (middleC, first, keys, other) => {
    const stub = stubOf(draftBy(middleC, cues), 'solo');
    const text = stub.replace(/\n# /g, ' ');
    expect(
      text.indexOf(`# Keys here are written with middle C (key 60) as C${String(middleC)}. `),
    ).toBe(0);
    expect(text).toContain(` draft again with --middle-c ${other}, `);
    expect(stub).toContain(`\nmiddle-c: C${String(middleC)}\n`);
    expect(text).toContain(`keys ${keys} (60-67)`);
    expect(text).toContain(`likely switches ${first} (24), `);
    expect(names(stub)[0]).toBe(`articulation at ${first}`);
    const { outline } = read(stub);
    expect(outline.articulations.map(({ choice, keys: own }) => ({ choice, own }))).toMatchObject([
      { choice: { test: { kind: 'key', key: 24 } }, own: [[60, 67]] },
      { choice: { test: { kind: 'key', key: 25 } }, own: [[60, 67]] },
    ]);
  });

  test('in the outlines only: the template stays as it is', () => {
    expect(draftBy(3, cues).text).toBe(draftBy(4, cues).text);
  });
});

describe('articulations', () => {
  test('one for each key that looks like a switch, counted over all cues, with the first place', () => {
    const stub = stubOf(
      draftOf(
        [{ name: 'Solo', keys: tune, shortKeys: [24, 24] }],
        [{ name: 'Solo', keys: tune, shortKeys: [24, 26] }],
      ),
      'solo',
    );
    expect(names(stub)).toEqual(['articulation at C1', 'articulation at D1']);
    // Twenty quarters in four are five bars; then the switches.
    expect(stub).toContain('# key 24: pressed 3 times, first in 1m1 bar 6\n    switch: C1\n');
    expect(stub).toContain('# key 26: pressed 1 time, first in 1m2 bar 6\n    switch: D1\n');
    expect(articulationsIn(stub)).toContain('    keys: C4-G4');
  });

  test('those that the names of tracks say, each with the keys of its own tracks', () => {
    const stub = stubOf(
      draftOf([
        { name: 'Vc leg', keys: [48, 55] },
        { name: 'Vc stac', keys: [36] },
        { name: 'Vc legato', keys: [57] },
      ]),
      'vc',
    );
    expect(names(stub)).toEqual(['legato', 'staccato']);
    expect(articulationsIn(stub).filter((line) => line.includes(' keys:'))).toEqual([
      '    keys: C3-A3',
      '    keys: C2',
    ]);
    expect(articulationsIn(stub).filter((line) => line.includes('switch:'))).toEqual([
      '    switch: "?"',
      '    switch: "?"',
    ]);
  });

  test('one for everything where nothing tells them apart', () => {
    expect(names(stubOf(draftOf([{ name: 'Harp' }]), 'harp'))).toEqual(['as played']);
  });

  test('one for the tracks without a word, beside those with one', () => {
    const draft = draftOf([{ name: 'Vc' }, { name: 'Vc pizz' }]);
    expect(names(stubOf(draft, 'vc'))).toEqual(['pizzicato', 'as played']);
  });

  test('all keys of a track of switches; they are no notes', () => {
    const stub = stubOf(
      draftOf([
        { name: 'Cel', keys: [72, 84] },
        { name: 'Cel switches', keys: [12, 14, 12] },
      ]),
      'cel',
    );
    expect(names(stub)).toEqual(['articulation at C0', 'articulation at D0']);
    expect(stub).toContain('# key 12: pressed 2 times, first in 1m1 bar 1\n');
    expect(articulationsIn(stub)).toContain('    keys: C5-C6');
  });

  test('more than a file can hold are counted', () => {
    const words = ['leg', 'sus', 'stac', 'pizz', 'trem', 'trill', 'harm', 'sord'];
    const tracks = words.flatMap((a) =>
      words.flatMap((b) => words.map((c) => ({ name: `Vc ${a} ${b} ${c}` }))),
    );
    const stub = stubOf(draftOf(tracks), 'vc');
    const all = new Set(tracks.map(({ name }) => name)).size;
    expect(names(stub)).toHaveLength(400);
    expect(stub).toContain(`  # and ${String(all - 400)} more\n`);
    expect(read(stub).outline.articulations).toHaveLength(400);
  });
});

test('a name can not leave its comment', () => {
  const { outlines } = draftOf([{ name: 'Harp \u2028rate: 1\u0085"' }]);
  for (const { text } of outlines) {
    expect(
      text.split(/[\n\r\u0085\u2028\u2029]/u).filter((line) => line.startsWith('rate:')),
    ).toEqual(['rate: "?"']);
    expect(read(text).outline.articulations).toHaveLength(1);
  }
});
