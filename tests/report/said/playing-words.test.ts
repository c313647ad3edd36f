import { expect, test } from 'vitest';
import type { OverviewArticulation } from '../../../src/overview/overview-instrument.ts';
import type { Playable, PlayableStretch } from '../../../src/overview/overview-playable.ts';
import {
  dynamicNames,
  dynamicSpan,
  dynamicsWords,
  eighth,
} from '../../../src/report/said/dynamics.ts';
import { keysInTable, keysWords, playingWords } from '../../../src/report/said/playing-words.ts';
import type { Range } from '../../../src/terms/range.ts';

test('dynamics are even eighths of 1 to 127, without a gap', () => {
  const eighths = dynamicNames.map((_, i) => eighth(i));
  expect(eighths[0]).toEqual([1, 16]);
  expect(eighths.at(-1)?.[1]).toBe(127);
  eighths.slice(1).forEach(([lo], i) => expect(lo).toBe((eighths[i]?.[1] ?? 0) + 1));
});

const said = (
  dynamics: PlayableStretch['dynamics'],
  more: Partial<PlayableStretch> = {},
): string | null =>
  dynamicsWords({ dynamics, together: [], dependsOn: [], releasesGone: false, ...more });

test.each<[Range, string]>([
  [[1, 127], 'ppp to fff'],
  [[0, 16], 'ppp'],
  [[81, 112], 'f to ff'],
  [[80, 113], 'f to ff'],
  [[45, 84], 'mp to mf'],
  [[113, 127], 'fff'],
  [[113, 126], 'part of fff'],
  [[1, 15], 'part of ppp'],
  [[75, 90], 'part of mf and f'],
])('a layer of %j is called %s', (range, words) => {
  expect(dynamicSpan(range)).toBe(words);
});

// By hand from the eighths: ff is 97-112, mf 65-80, f 81-96, ppp 1-16.
test.each<[readonly Range[], Range, string | null]>([
  [[[1, 127]], [1, 127], null],
  [[[0, 127]], [1, 127], null],
  [[[1, 112]], [1, 127], 'up to ff (velocity 1-112)'],
  [[[1, 111]], [1, 127], 'up to f (velocity 1-111)'],
  [[[0, 72]], [0, 127], 'up to mp (velocity 1-72)'],
  [[[65, 127]], [1, 127], 'from mf (velocity 65-127)'],
  [[[66, 127]], [1, 127], 'from f (velocity 66-127)'],
  [[[65, 96]], [1, 127], 'mf to f (velocity 65-96)'],
  [[[81, 96]], [1, 127], 'f (velocity 81-96)'],
  [[[1, 15]], [1, 127], 'only a part of ppp (velocity 1-15)'],
  [[[75, 90]], [1, 127], 'only between mf and f (velocity 75-90)'],
  [
    [
      [1, 16],
      [113, 127],
    ],
    [1, 127],
    'up to ppp and from fff (velocity 1-16, 113-127)',
  ],
  [[], [1, 127], 'in part'],
])('safe %j of %j: %s', (safe, all, words) => {
  expect(said([{ by: 'velocity', safe, all }])).toBe(words);
});

test('a controller is named, and comes beside velocity', () => {
  expect(
    said([
      { by: 'velocity', safe: [[1, 112]], all: [1, 127] },
      { by: 1, safe: [[0, 96]], all: [0, 127] },
    ]),
  ).toBe('up to ff (velocity 1-112) or up to f (CC1 0-96)');
});

test('a limit is told alone where another control has none, and in part is said once', () => {
  const [all, safe] = [[0, 127] as const, [[1, 76]] as const];
  const pedal = { by: 64, safe: [], all } as const;
  expect(said([{ by: 'velocity', safe, all: [1, 127] }, pedal])).toBe('up to mp (velocity 1-76)');
  expect(
    said([{ by: 'velocity', safe: [], all: [1, 127] }, pedal], { dependsOn: ['velocity', 64] }),
  ).toBe('in part, by velocity and CC64');
});

test('where none has a limit of its own, what is safe together is told', () => {
  const wheel = { by: 1, safe: [], all: [0, 127] } as const;
  expect(
    said([{ by: 'velocity', safe: [], all: [1, 127] }, wheel], {
      together: [
        { by: 'velocity', range: [33, 96] },
        { by: 1, range: [0, 80] },
      ],
    }),
  ).toBe('p to f (velocity 33-96) together with up to mf (CC1 0-80)');
});

test('where nothing is safe, what decides is told, or that it is in part', () => {
  const velocity = { by: 'velocity', safe: [], all: [1, 127] } as const;
  expect(said([velocity])).toBe('in part');
  expect(said([velocity], { dependsOn: ['note-before', 'velocity'] })).toBe(
    'in part, by the note before and velocity',
  );
  expect(said([velocity], { dependsOn: ['held-keys', 'note-before', 1] })).toBe(
    'in part, by the keys held, the note before and CC1',
  );
});

const articulation = (name: string, playable: Playable): OverviewArticulation => ({
  name,
  switch: null,
  notes: 0,
  keysPlayed: [],
  velocities: null,
  zones: 0,
  zonesKept: 0,
  bytes: { full: 0, kept: 0 },
  playable,
  copies: [],
  rows: [],
});

const upToFf = [{ by: 'velocity', safe: [[1, 112]], all: [1, 127] }] as const;

test('horns: articulations of one range and limit stand together, and what is gone is last', () => {
  const part: Playable = {
    state: 'part',
    all: [[43, 76]],
    stretches: [
      { keys: [[43, 76]], dynamics: upToFf, together: [], dependsOn: [], releasesGone: false },
    ],
  };
  const gone: Playable = { state: 'gone', all: [[43, 76]], stretches: [] };
  expect(
    playingWords(
      [articulation('sustain', part), articulation('muted', gone), articulation('staccato', part)],
      4,
    ),
  ).toEqual({
    lines: [
      { names: ['sustain', 'staccato'], texts: ['G2-E5 (43-76); up to ff (velocity 1-112)'] },
    ],
    gone: ['muted'],
  });
});

test.each<[string, Playable, string]>([
  ['all of it', { state: 'whole', all: [[43, 76]], stretches: [] }, 'G2-E5 (43-76); every dynamic'],
  [
    'fewer keys',
    {
      state: 'part',
      all: [[35, 77]],
      stretches: [
        { keys: [[43, 76]], dynamics: [], together: [], dependsOn: [], releasesGone: false },
      ],
    },
    'G2-E5 (43-76) of B1-F5 (35-77); every dynamic',
  ],
  [
    'stretches that differ',
    {
      state: 'part',
      all: [[43, 76]],
      stretches: [
        { keys: [[43, 59]], dynamics: [], together: [], dependsOn: [], releasesGone: false },
        { keys: [[60, 76]], dynamics: upToFf, together: [], dependsOn: [], releasesGone: false },
      ],
    },
    'G2-B3 (43-59) in every dynamic; C4-E5 (60-76) up to ff (velocity 1-112)',
  ],
  [
    'a few keys between the outermost',
    {
      state: 'part',
      all: [[35, 60]],
      stretches: [
        {
          keys: [
            [35, 36],
            [60, 60],
          ],
          dynamics: [],
          together: [],
          dependsOn: [],
          releasesGone: false,
        },
      ],
    },
    'B1-C2 (35-36), C4 (60) of B1-C4 (35-60); every dynamic',
  ],
  [
    'stretches that differ, and keys that are gone',
    {
      state: 'part',
      all: [[43, 80]],
      stretches: [
        { keys: [[43, 59]], dynamics: [], together: [], dependsOn: [], releasesGone: false },
        { keys: [[60, 76]], dynamics: upToFf, together: [], dependsOn: [], releasesGone: false },
      ],
    },
    'G2-B3 (43-59) in every dynamic; C4-E5 (60-76) up to ff (velocity 1-112); no other key of G2-G#5 (43-80)',
  ],
])('%s', (_, playable, text) => {
  expect(playingWords([articulation('sustain', playable)], 4).lines[0]?.texts.join('; ')).toBe(
    text,
  );
});

test('what no note starts is not for a composer', () => {
  const none: Playable = { state: 'gone', all: [], stretches: [] };
  expect(playingWords([articulation('releases', none)], 4)).toEqual({ lines: [], gone: [] });
});

test('keys in many places are counted, and in a table all are there', () => {
  const keys = Array.from({ length: 7 }, (_, i): Range => [36 + 4 * i, 37 + 4 * i]);
  expect(keysWords(keys, 4)).toBe('14 keys within C2-C#4 (36-61)');
  expect(keysWords([[60, 60]], 3)).toBe('C3 (60)');
  // No name reaches over a gap.
  expect(keysInTable(keys.slice(0, 3), 4)).toBe('C2-C#2 (36-37), E2-F2 (40-41), G#2-A2 (44-45)');
  expect(keysInTable(keys, 4)).toBe(
    '7 places within C2-C#4 (36-61): 36-37, 40-41, 44-45, 48-49, 52-53, 56-57, 60-61',
  );
  expect(keysInTable([], 4)).toBe('');
});
