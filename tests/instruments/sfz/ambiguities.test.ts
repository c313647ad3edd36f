import { describe, expect, test } from 'vitest';
import { ambiguities } from '../../../src/instruments/sfz/ambiguities.ts';
import { fmt, riff, wave, zeros } from '../../samples/writers.ts';
import { documented, follow, probed, read, regions, type Row } from './activation/playing.ts';

/**
 * The fifteen points on which the open documentation, sfizz 1.2.3 and liquidsfz 0.4.1 differ, in a
 * table of its own beside that of the code: how each is handled, and an instrument that shows it.
 */
type Shown = readonly [
  number: number,
  handling: (typeof ambiguities)[number]['handling'],
  row: Row,
];

const shown: readonly Shown[] = [
  [
    1,
    'covered',
    {
      what: 'what a sequence counts: notes of the other velocity layer or not, both steps are kept',
      from: probed,
      sfz: regions(
        'hivel=64 seq_length=2 seq_position=1',
        'hivel=64 seq_length=2 seq_position=2',
        'lovel=65 seq_length=2 seq_position=1',
        'lovel=65 seq_length=2 seq_position=2',
      ),
      steps: ['on 60 30 -> 0 1', 'on 60 100 -> 2 3', 'on 60 30 -> 0 1'],
    },
  ],
  [
    2,
    'engine',
    {
      what: 'where switches are watched: a key that no region names, a switch outside the range',
      from: probed,
      sfz:
        '<global> sw_lokey=40 sw_hikey=45\n' +
        regions('sw_last=40 key=60', 'sw_last=41 key=60', 'sw_last=50 key=60'),
      steps: ['on 40', 'on 60 -> 0', 'on 43', 'on 60 -> 0?', 'on 41', 'on 50', 'on 60 -> 1 2?'],
    },
  ],
  [
    3,
    'engine',
    {
      what: 'what a release needs: no attack in the plain reading; a key struck again may be enough',
      from: probed,
      sfz: regions('key=60 trigger=release'),
      steps: ['on 60', 'on 60 -> 0?', 'off 60 -> 0'],
    },
  ],
  [
    4,
    'covered',
    {
      what: 'controller starts: keys go on, and the same value counts again',
      from: probed,
      sfz: regions('key=60 on_locc47=64'),
      steps: ['cc 47 70 -> 0', 'cc 47 70 -> 0', 'on 60 -> 0'],
    },
  ],
  [
    // Kept under a doubt of its own.
    5,
    'covered',
    {
      what: 'a controller before any message: power-on in one engine, 0 in another',
      from: probed,
      sfz: `<control> set_cc20=9\n${regions('hicc7=0', 'locc7=100', 'hicc20=0', 'locc20=9')}`,
      steps: ['on 60 -> 0[start-state] 1 2[start-state] 3'],
      show: ['start-state'],
    },
  ],
  [
    6,
    'engine',
    {
      what: 'poly pressure: of the own key, or of any',
      from: probed,
      sfz: regions('lopolyaft=50'),
      steps: ['pat 40 80', 'on 40 -> 0', 'on 41 -> 0?'],
    },
  ],
  [
    7,
    'covered',
    {
      what: 'one number drawn for the note or one for each region: both halves are kept',
      from: probed,
      sfz: regions('hirand=.5', 'lorand=.5'),
      steps: ['on 60 -> 0 1'],
    },
  ],
  [
    8,
    'not applicable',
    {
      what: 'default_path and a new control header: both regions start (their sample: below)',
      from: documented,
      sfz: `<control> default_path=a/\n${regions('')}<control>\n${regions('')}`,
      steps: ['on 60 -> 0 1'],
    },
  ],
  [
    9,
    'engine',
    {
      what: 'a pedal is down from 1 on; from 64 on in another engine',
      from: probed,
      sfz: regions('key=60 trigger=release'),
      steps: ['cc 64 63', 'on 60', 'off 60 -> 0?', 'cc 64 0 -> 0'],
    },
  ],
  [
    // Held to 127 the first can't play below 127; left out, it is no limit.
    10,
    'engine',
    {
      what: 'out of range: held to the range, or left out',
      from: probed,
      sfz: regions('lovel=200', 'locc1=300', 'lokey=200', 'hikey=300'),
      steps: ['on 60 100 -> 0? 1? 2? 3', 'cc 1 127', 'on 127 127 -> 0 1 2 3'],
    },
  ],
  [
    11,
    'engine',
    {
      what: 'channels: both open engines do not look',
      from: probed,
      sfz: regions('lochan=2 hichan=2'),
      steps: ['on 60 ch 2 -> 0', 'on 60 ch 3 -> 0?'],
    },
  ],
  [
    12,
    'engine',
    {
      what: 'controllers 128 to 130 as bend and pressures, or not looked at; more are kept',
      from: probed,
      sfz: regions('locc128=100', 'locc129=100', 'locc130=100', 'locc131=127'),
      steps: ['on 60 -> 0? 1? 2? 3', 'pb 8191', 'at 127', 'pat 60 127', 'on 60 -> 0 1 2 3'],
    },
  ],
  [
    13,
    'engine',
    {
      what: 'fade out from 0 to 0: heard at 0; everywhere in another engine',
      from: probed,
      sfz: regions('xfout_locc24=0 xfout_hicc24=0', 'xfout_locc24=64 xfout_hicc24=64'),
      steps: [
        ...['cc 24 0', 'on 60 -> 0 1', 'off 60', 'cc 24 69', 'cc 24 70', 'on 61 -> 0?', 'off 61'],
        ...['cc 24 65', 'cc 24 64', 'on 62 -> 0? 1', 'off 62'],
      ],
    },
  ],
  [
    14,
    'engine',
    {
      what: 'controllers 121, 120 and 123',
      from: probed,
      sfz: regions('key=60 locc1=64', 'key=61 trigger=release', 'key=62 trigger=release'),
      steps: [
        ...['cc 1 100', 'on 60 -> 0', 'cc 121 0', 'on 60 -> 0?'],
        ...['on 61', 'cc 123 0 -> 1', 'on 62', 'cc 120 0 -> 2?'],
      ],
    },
  ],
  [
    // The second engine reads on, and would find a region there; the finding says which line it is.
    15,
    'not applicable',
    {
      what: 'a line with a single slash in front is no part of the instrument',
      from: documented,
      sfz: `/ <region> sample=a.wav key=50\n${regions('key=60')}`,
      steps: ['on 50', 'on 60 -> 0'],
    },
  ],
];

describe('points on which engines differ', () => {
  test('the list is the one of this table', () => {
    const handled = ambiguities.map(({ number, handling }) => [number, handling]);
    expect(handled).toEqual(shown.map(([number, handling]) => [number, handling]));
    expect(handled.map(([number]) => number)).toEqual([...Array(15).keys()].map((i) => i + 1));
  });

  test.each(ambiguities)('$number has a name and a reason', ({ name, reason }) => {
    expect(name).not.toBe('');
    expect(reason).not.toBe('');
  });

  test('no name stands twice', () => {
    expect(new Set(ambiguities.map(({ name }) => name)).size).toBe(ambiguities.length);
  });

  test.each(shown.map(([number, handling, row]) => [number, row.what, handling, row] as const))(
    '%i. %s',
    async (_, __, handling, row) => {
      expect(await follow(row)).toEqual(row.steps);
      // Each row proves what its handling says: only `engine` starts anything under that doubt.
      expect(row.steps.some((step) => step.includes('?'))).toBe(handling === 'engine');
    },
  );

  test('8. the folder of an earlier control header is looked into as well', async () => {
    const sfz = `<control> default_path=a/\n${regions('')}<control>\n${regions('')}`;
    const sound = wave(fmt(), riff('data', zeros(20)));
    const { zones, samples } = await read(sfz, { 'a/a.wav': sound });
    expect(zones.map((zone) => zone.samples)).toEqual([[0], [0]]);
    expect(samples.map(({ present, frames }) => [present, frames])).toEqual([[true, 10]]);
  });

  test('8. but not where the plain folder has the sample', async () => {
    const sfz = `<control> default_path=a/\n${regions('')}<control>\n${regions('')}`;
    const [long, short] = [40, 20].map((bytes) => wave(fmt(), riff('data', zeros(bytes))));
    const { zones, samples } = await read(sfz, { 'a/a.wav': long!, 'a.wav': short! });
    expect(zones.map((zone) => samples[zone.samples[0]!]?.frames)).toEqual([20, 10]);
  });
});
