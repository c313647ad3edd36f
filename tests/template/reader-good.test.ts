import { describe, expect, test } from 'vitest';
import { sha256 } from '../../src/files/digest.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { beside } from '../../src/template/reading/beside.ts';
import { readTemplate } from '../../src/template/read-template.ts';
import type { Route } from '../../src/template/route.ts';
import type { Template } from '../../src/template/template.ts';
import { bytesOf, filesOf, path, read, readFiles } from './reader-cases.ts';

const gib = 2 ** 30;

/** A rule as far as the reader decides about it; patterns have tests of their own. */
const rule = ({ tracks, cue, ...rest }: Route) => ({
  tracks: tracks.map(({ text }) => text),
  cue: cue?.text ?? null,
  port: rest.port,
  channel: rest.channel,
  join: rest.join,
  outcome: rest.outcome,
  file: rest.file,
  at: rest.at,
});

const plays = (...instruments: readonly string[]) => ({
  kind: 'play',
  instruments,
  articulation: null,
  transform: { transpose: 0, velocity: 1, controllers: new Map() },
  printed: false,
});

const anywhere = { cue: null, port: null, channel: null, join: null, file: path };

describe('every key there is', () => {
  const template = readFiles(filesOf('good-full'));

  test('the top', async () => {
    const { machines, ...others } = await template;
    expect(machines).toEqual([
      { id: 'a', budget: 52 * gib },
      { id: 'b', budget: 32e9 },
    ]);
    expect(others).toMatchObject({
      path,
      sha256: sha256(bytesOf('good-full'), bytesOf('good-full', 'tracks.csv')),
      cues: ['cues/**/*.mid', '*.mid'],
      reel: ['1m1', '1m2', '2m1', '3'],
      split: 'markers',
      middleC: 3,
      names: new Map([
        ['leg', 'legato'],
        ['sus', 'sustain'],
      ]),
      slack: 0.06,
      settle: {
        'start-state': 'plain',
        'no-switch': 'accept',
        order: 'plain',
        slack: 'plain',
        smoothing: 'accept',
        tail: 'plain',
        'pedal-held': 'plain',
        engine: 'accept',
        stretch: 'accept',
      },
      headroom: { keys: 2, velocity: 8, controller: 127 },
      pins: [
        {
          instrument: 'horns',
          articulation: 'sustain',
          // middle-c is C3, so C2 is an octave below 60.
          keys: [48, 72],
          velocities: [1, 64],
          at: { line: 38, column: 5 },
        },
        {
          instrument: 'harp',
          articulation: null,
          keys: [60, 60],
          velocities: null,
          at: { line: 39, column: 5 },
        },
        {
          instrument: 'celesta',
          articulation: null,
          keys: null,
          velocities: null,
          at: { line: 40, column: 5 },
        },
      ],
      findings: [],
    } satisfies Omit<Template, 'instruments' | 'routes' | 'machines'>);
  });

  test('the instruments, each with its machine and its player', async () => {
    const { instruments } = await template;
    expect(instruments).toEqual([
      {
        id: 'celesta',
        written: 'banks/keys.sf2#0:8',
        source: { kind: 'soundfont', path: 'banks/keys.sf2', preset: { bank: 0, program: 8 } },
        microphones: null,
        machine: 'b',
        player: {
          id: 'q',
          loads: 'whole',
          head: null,
          width: 3,
          factor: 1.04,
          perZone: 0,
          perCopy: 0,
          shares: 'copy',
          unloads: 'instrument',
          loadRate: 300_000_000,
        },
        settle: {},
        measured: [],
        at: { line: 16, column: 3 },
      },
      {
        id: 'drums',
        written: 'banks/keys.sf2#128:0',
        source: { kind: 'soundfont', path: 'banks/keys.sf2', preset: { bank: 128, program: 0 } },
        microphones: null,
        machine: 'a',
        player: {
          id: 'r',
          loads: 'streamed',
          head: { unit: 'frames', frames: 12_000 },
          width: 'source',
          factor: 1,
          perZone: 0,
          perCopy: 0,
          shares: 'copy',
          unloads: 'layer',
          loadRate: null,
        },
        settle: {},
        measured: [],
        at: { line: 17, column: 3 },
      },
      {
        id: 'horns',
        written: 'banks/Brass.SF2',
        source: { kind: 'soundfont', path: 'banks/Brass.SF2', preset: null },
        microphones: null,
        machine: 'a',
        player: {
          id: 's',
          loads: 'streamed',
          head: { unit: 'seconds', seconds: 0.5 },
          width: 4,
          factor: 1,
          perZone: 0,
          perCopy: 0,
          shares: 'copy',
          unloads: 'microphone',
          loadRate: null,
        },
        settle: { 'start-state': 'accept', stretch: 'plain' },
        measured: [
          { of: 'empty', bytes: Math.round(0.6 * gib), at: { line: 21, column: 17 } },
          { of: 'full', bytes: Math.round(3.9 * gib), at: { line: 21, column: 33 } },
          { of: 'Sustain', bytes: Math.round(1.2 * gib), at: { line: 21, column: 48 } },
        ],
        at: { line: 18, column: 3 },
      },
      {
        id: 'harp',
        written: 'tables/harp.csv',
        source: { kind: 'zone-table', path: 'tables/harp.csv', middleC: 4 },
        microphones: null,
        machine: 'a',
        player: {
          id: 'p',
          loads: 'streamed',
          head: { unit: 'bytes', bytes: 60 * 1024 },
          width: 'source',
          factor: 1,
          perZone: 200,
          perCopy: 12 * 2 ** 20,
          shares: 'machine',
          unloads: 'articulation',
          loadRate: null,
        },
        settle: {},
        measured: [],
        at: { line: 23, column: 3 },
      },
    ] satisfies Template['instruments']);
  });

  test('rows of the table, then the rules, with what is counted from 1 counted from 0', async () => {
    const { routes } = await template;
    expect(routes.map(rule)).toEqual([
      {
        ...anywhere,
        tracks: ['Timpani'],
        outcome: plays('drums'),
        file: 'score/tracks.csv',
        at: { line: 2, column: 1 },
      },
      {
        ...anywhere,
        tracks: ['Harp'],
        outcome: {
          ...plays('harp'),
          transform: { transpose: 12, velocity: 1, controllers: new Map() },
        },
        file: 'score/tracks.csv',
        at: { line: 3, column: 1 },
      },
      {
        ...anywhere,
        tracks: ['Vc {art}'],
        outcome: { ...plays('horns'), articulation: '{art}' },
        at: { line: 25, column: 5 },
      },
      {
        ...anywhere,
        tracks: ['Hn*', 'Horn*'],
        cue: '1m*',
        port: 0,
        channel: 15,
        outcome: plays('horns'),
        at: { line: 26, column: 5 },
      },
      {
        ...anywhere,
        tracks: ['Cel', 'Cel switches'],
        join: 'Cel + Cel switches',
        outcome: plays('celesta'),
        at: { line: 27, column: 5 },
      },
      {
        ...anywhere,
        tracks: ['Low brass*'],
        outcome: {
          ...plays('horns', 'harp'),
          transform: {
            transpose: -12,
            velocity: 0.9,
            controllers: new Map([
              [11, 1],
              [1, 11],
            ]),
          },
        },
        at: { line: 28, column: 5 },
      },
      {
        ...anywhere,
        tracks: ['Pad print*'],
        outcome: { ...plays('harp'), printed: true },
        at: { line: 29, column: 5 },
      },
      {
        ...anywhere,
        tracks: ['*click*'],
        outcome: { kind: 'ignore' },
        at: { line: 30, column: 5 },
      },
      { ...anywhere, tracks: [''], outcome: plays('drums'), at: { line: 31, column: 5 } },
    ]);
  });
});

test('what holds where nothing is said', async () => {
  expect(await readFiles(filesOf('good-least'))).toMatchObject({
    cues: [],
    reel: null,
    split: null,
    middleC: 4,
    machines: [{ id: 'default', budget: null }],
    instruments: [
      {
        machine: 'default',
        player: {
          id: 'default',
          loads: 'whole',
          width: 'source',
          factor: 1,
          shares: 'machine',
          unloads: 'sample',
        },
      },
    ],
    slack: 0,
    settle: {},
    headroom: { keys: 0, velocity: 0, controller: 0 },
    pins: [],
    findings: [],
  });
});

test('the only machine and the only player are for every instrument', async () => {
  const { instruments } = await readFiles(filesOf('good-only-machine'));
  expect(instruments).toMatchObject([
    { machine: 'a', player: { id: 'p' }, source: { path: '/library/brass.sf2' } },
  ]);
});

test('names that mean something to programs are names like others, in file order', async () => {
  const { machines, instruments, names, routes } = await readFiles(filesOf('good-names-like-code'));
  expect(machines.map(({ id, budget }) => [id, (budget ?? 0) / gib])).toEqual([
    ['10', 1],
    ['2', 2],
    ['constructor', 3],
    ['__proto__', 4],
  ]);
  expect(instruments.map(({ id, machine }) => [id, machine])).toEqual([
    ['10', '__proto__'],
    ['9', 'constructor'],
    ['toString', '10'],
    ['1.10', '2'],
    ['true', '2'],
    ['\u{1f3bb}', '2'],
  ]);
  expect([...names]).toEqual([
    ['__proto__', 'legato'],
    ['constructor', '1.50'],
  ]);
  expect(routes.map(({ tracks }) => tracks[0]?.text)).toEqual(['1812', '0x10', 'true']);
});

test('a byte order mark and line ends of Windows are no text', async () => {
  expect(await readFiles(filesOf('good-byte-order-mark'))).toMatchObject({
    slack: 0,
    machines: [{ id: 'a', budget: 1.5 * gib }],
  });
});

test('the digest is over the template and then its table', async () => {
  const yaml = 'tracks: t/tracks.csv\ninstruments: { a: { file: a.sf2 } }\n';
  const csv = 'track,instrument\nHn,a\n';
  const parts: string[] = [];
  const digest = (all: readonly Uint8Array[]): string => {
    parts.push(...all.map((part) => new TextDecoder().decode(part)));
    return 'digest';
  };
  const files = new MemoryFiles({ 'a/k.yaml': yaml, 'a/t/tracks.csv': csv });
  expect((await readTemplate(files, 'a/k.yaml', digest)).sha256).toBe('digest');
  expect(parts).toEqual([yaml, csv]);
});

test('warnings of the table are findings of the template', async () => {
  const files = new MemoryFiles({
    [path]: 'tracks: tracks.csv\ninstruments: { a: { file: a.sf2 } }\n',
    'score/tracks.csv': 'track,instrument,remark\nHn,a,loud\n',
  });
  expect((await readFiles(files)).findings).toMatchObject([
    { code: 'tracks-headings-unknown', severity: 'note', file: 'score/tracks.csv' },
  ]);
});

test.each([
  ['keepset.yaml', 'tables/harp.csv', 'tables/harp.csv'],
  ['score/keepset.yaml', 'tables/harp.csv', 'score/tables/harp.csv'],
  ['../keepset.yaml', 'harp.csv', '../harp.csv'],
  ['/score/keepset.yaml', '../harp.csv', '/score/../harp.csv'],
  ['score/keepset.yaml', '/library/harp.csv', '/library/harp.csv'],
  ['score/keepset.yaml', 'D:/library/harp.csv', 'D:/library/harp.csv'],
])('in %s the path %s is %s', (template, written, found) => {
  expect(beside(template, written)).toBe(found);
});

test('ids with blanks between words, long ones and those in any script are ids', async () => {
  const ids = ['low strings 1', 'x'.repeat(300), '\u7434', 'a/b', 'a:b'];
  const yaml = JSON.stringify({
    instruments: Object.fromEntries(ids.map((id) => [id, { file: 'a.sf2' }])),
  });
  expect((await read(yaml)).instruments.map(({ id }) => id)).toEqual(ids);
});
