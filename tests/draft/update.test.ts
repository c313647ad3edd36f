import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { draft } from '../../src/jobs/draft.ts';
import type { Draft } from '../../src/draft/draft.ts';
import { routeAll, templateOf } from './route-all.ts';
import { cueOf, type TestTrack } from './track-file.ts';

const update = (text: string, ...tracks: readonly (string | TestTrack)[]): Promise<Draft> =>
  draft({
    cues: ['cues'],
    update: { path: 'keepset.yaml' },
    files: new MemoryFiles({
      'keepset.yaml': text,
      'cues/1m1.mid': cueOf(tracks.map((one) => (typeof one === 'string' ? { name: one } : one))),
    }),
  });

/** Fails unless all of `before` is in `after`, in order: text was put in, and none taken out. */
const expectKept = (before: string, after: string): void => {
  let at = 0;
  for (const character of after) if (character === before[at]) at += 1;
  expect(at, 'something of the template is gone').toBe([...before].length);
};

/** The lines that `after` has and `before` has not; those of both are in one order. */
const newLines = (before: string, after: string): readonly string[] => {
  const old = before.split('\n');
  const lines = after.split('\n').filter((line) => {
    const isOld = line === old[0];
    if (isOld) old.shift();
    return !isOld;
  });
  expect(old, 'lines of the template are gone').toEqual([]);
  return lines;
};

const block = `# Mine.
instruments:
  hn: { file: hn.sf2 }   # four of them
  vc:
    file: 'low strings.sf2' # cello

  # no more for now

routes:
    - {track: Hn*, instrument: hn}
    - track: "Vc {art}" # by name
      instrument: vc
      articulation: '{art}'
    # - { track: old, ignore: true }

slack: 60 ms # about
`;

test('block style: at the end of each section, all else as it was', async () => {
  const { text, added: count, groups } = await update(block, 'Hn 1', 'Harp', 'Click');
  expect(text).toBe(`# Mine.
instruments:
  hn: { file: hn.sf2 }   # four of them
  vc:
    file: 'low strings.sf2' # cello
  # added: Harp
  # 1 cue, 1 note, keys C4 (60), velocities 80; port 1, channel 1
  harp: { file: instruments/harp.sf2 }  # fill in

  # no more for now

routes:
    - {track: Hn*, instrument: hn}
    - track: "Vc {art}" # by name
      instrument: vc
      articulation: '{art}'
    # added: Harp
    - { track: "Harp", instrument: harp }
    # added: Click
    # 1 cue, 1 note, keys C4 (60), velocities 80; port 1, channel 1
    # a click or guide: no instrument of the score plays it, by its name. If one does, route it
    - { track: "Click", ignore: true }
    # - { track: old, ignore: true }

slack: 60 ms # about
`);
  expect(count).toBe(2);
  expect(groups.map(({ instrument, isNew }) => [instrument, isNew])).toEqual([
    ['harp', true],
    [null, false],
  ]);
});

test('nothing to add: the same text', async () => {
  const { text, added: count, groups } = await update(block, 'Hn 1', 'Vc leg');
  expect([text, count, groups]).toEqual([block, 0, []]);
});

describe('other styles', () => {
  const harp = '{ track: "Harp", instrument: harp }';
  const entry = 'harp: { file: instruments/harp.sf2 }';
  const styles: readonly (readonly [what: string, before: string, lines: readonly string[]])[] = [
    [
      'flow on one line',
      'instruments: { hn: { file: hn.sf2 } } # a\nroutes: [ { track: Hn, instrument: hn } ] # b\n',
      [
        'instruments: { hn: { file: hn.sf2 },',
        `  ${entry} } # a`,
        'routes: [ { track: Hn, instrument: hn },',
        `  ${harp} ] # b`,
      ],
    ],
    [
      'flow over lines, comments behind items',
      'instruments: {\n  hn: { file: hn.sf2 } # a, b\n}\nroutes: [\n    { track: Hn, instrument: hn }, # c\n]\n',
      [
        'instruments: {',
        '  hn: { file: hn.sf2 }, # a, b',
        `  ${entry}`,
        '}',
        'routes: [',
        '    { track: Hn, instrument: hn }, # c',
        `    ${harp}`,
        ']',
      ],
    ],
    [
      'a comma at the end, the bracket behind it',
      'instruments: {hn: {file: hn.sf2},}\nroutes: [{track: Hn, instrument: hn}, ]\n',
      [
        'instruments: {hn: {file: hn.sf2},',
        `  ${entry}}`,
        'routes: [{track: Hn, instrument: hn},',
        `  ${harp} ]`,
      ],
    ],
    [
      'empty brackets',
      'instruments: {}\nroutes: [] # none\n',
      ['instruments: {', `  ${entry} }`, 'routes: [', `  ${harp} ] # none`],
    ],
    [
      'both missing',
      'middle-c: C3 # mine',
      [
        'middle-c: C3 # mine',
        '',
        'instruments:',
        `  ${entry}  # fill in`,
        '',
        'routes:',
        `  - ${harp}`,
      ],
    ],
    [
      'the instruments missing',
      'routes:\n- { track: Hn, ignore: true }\n',
      [
        'routes:',
        '- { track: Hn, ignore: true }',
        `- ${harp}`,
        '',
        'instruments:',
        `  ${entry}  # fill in`,
      ],
    ],
    [
      'everything in braces',
      '{ middle-c: C4 }\n',
      ['{ middle-c: C4,', `  instruments: { ${entry} },`, `  routes: [ ${harp} ] }`],
    ],
    [
      'between document marks',
      '---\nmiddle-c: C4\n...\n# behind\n',
      [
        '---',
        'middle-c: C4',
        '',
        'instruments:',
        `  ${entry}  # fill in`,
        '',
        'routes:',
        `  - ${harp}`,
        '...',
        '# behind',
      ],
    ],
    [
      'comments further in belong to the last item',
      'instruments:\n  hn: { file: hn.sf2 }\n    # mine\n  # ours\nroutes:\n- track: Hn\n  instrument: hn\n  # printed: true\n\n  # all\n# done',
      [
        'instruments:',
        '  hn: { file: hn.sf2 }',
        '    # mine',
        `  ${entry}  # fill in`,
        '  # ours',
        'routes:',
        '- track: Hn',
        '  instrument: hn',
        '  # printed: true',
        `- ${harp}`,
        '',
        '  # all',
        '# done',
      ],
    ],
    [
      'a text over lines at the end',
      'instruments:\n  hn: { file: hn.sf2 }\nroutes:\n  - instrument: hn\n    track: >+\n      Hn\n\n\n# behind\n',
      [
        'instruments:',
        '  hn: { file: hn.sf2 }',
        `  ${entry}  # fill in`,
        'routes:',
        '  - instrument: hn',
        '    track: >+',
        '      Hn',
        '',
        '',
        `  - ${harp}`,
        '# behind',
      ],
    ],
  ];
  test.each(styles)('%s', async (_, before, lines) => {
    const { text } = await update(before, 'Harp');
    expectKept(before, text);
    const withoutNew = text
      .split('\n')
      .filter((line) => !/^ *# (added: Harp|1 cue, 1 note|fill in the file:)/.test(line));
    expect(withoutNew.join('\n').replace(/\n$/, '')).toBe(lines.join('\n'));
    expect(text.match(/# added: Harp/g)).toHaveLength(2);
    const again = await update(text, 'Harp');
    expect(again.text).toBe(text);
    const { instruments } = await templateOf(text);
    expect(instruments.at(-1)).toMatchObject({ id: 'harp', source: { preset: null } });
  });

  test('line ends and the mark at the beginning stay what they are', async () => {
    const before = `\ufeff${block.replaceAll('\n', '\r\n')}`;
    const { text } = await update(before, 'Harp');
    expectKept(before, text);
    expect(text).not.toMatch(/(?<!\r)\n/);
    expect(text.startsWith('\ufeff# Mine.\r\n')).toBe(true);
  });
});

test('nothing new for one of the sections: it is not made', async () => {
  const { text } = await update('middle-c: C4\n', 'Click');
  expect(text).toContain('- { track: "Click", ignore: true }');
  expect(text).not.toContain('instruments:');
});

describe('tracks whose likes have a home', () => {
  test('go to the instrument of those, by the words of the template', async () => {
    const template = block.replace('slack', 'names: { leg: Legato slow }\nslack');
    const strings = template.replace('"Vc {art}"', '"Vc leg"').replace("'{art}'", 'leg');
    const { text, groups } = await update(strings, 'Vc leg', 'Vc 2 leg', 'Vc trem');
    expect(groups).toMatchObject([{ instrument: 'vc', isNew: false }]);
    const seen = [
      '    # 1 cue, 1 note, keys C4 (60), velocities 80; port 1, channel 1',
      '    # tracks of similar names play this instrument: check that these do too',
    ];
    expect(newLines(strings, text)).toEqual([
      '    # added: Vc 2 leg',
      ...seen,
      '    - { track: "Vc 2 leg", instrument: vc, articulation: "leg" }',
      '    # added: Vc trem',
      ...seen,
      '    - { track: "Vc trem", instrument: vc, articulation: "tremolo" }',
    ]);
  });

  test('name their articulation where the rules for it do', async () => {
    const { text } = await update(block, { name: 'Vc sus', channel: 1 }, 'leg Vc');
    expect(text).toContain('- { track: "leg Vc", instrument: vc, articulation: "legato" }');
    const plain = await update(block, 'Hn 1', 'sus Hn');
    expect(plain.text).toContain('- { track: "sus Hn", instrument: hn }');
  });

  test('unless those are on several', async () => {
    const two = `${block.replace('Hn*', 'Hn 1')}# end\n`.replace(
      '    - track: "Vc',
      '    - { track: Hn 2, instrument: vc }\n    - track: "Vc',
    );
    const { groups } = await update(two, 'Hn 1', 'Hn 2', 'Hn 3');
    // The id is taken.
    expect(groups).toMatchObject([{ instrument: 'hn-2', isNew: true, tracks: ['Hn 3'] }]);
  });

  test('an id alone is no home', async () => {
    const { groups } = await update(block.replace('Hn*', 'Horn'), 'Hn 3');
    expect(groups).toMatchObject([{ instrument: 'hn-2', isNew: true }]);
  });
});

describe('a template that asks where instruments belong', () => {
  const machines = 'machines: { "b 1": { memory: 1 GiB }, a: { memory: 1 GiB } }\n';
  const players =
    'players:\n  p: { loads: whole, shares: copy, unloads: sample }\n  q: { loads: whole, shares: copy, unloads: sample }\n';

  test('gets the first of several machines and players', async () => {
    const { text } = await update(`${machines}${players}`, 'Harp');
    expect(text).toContain(
      'harp: { file: instruments/harp.sf2, machine: "b 1", player: "p" }  # fill in',
    );
  });

  test('or its own defaults', async () => {
    const defaults = 'defaults: { machine: a, player: q }\n';
    const { text } = await update(`${machines}${players}${defaults}`, 'Harp');
    expect(text).toContain('harp: { file: instruments/harp.sf2 }  # fill in');
    expect((await templateOf(text)).instruments).toMatchObject([
      { machine: 'a', player: { id: 'q' } },
    ]);
  });
});

test('what only some channels of a track lack', async () => {
  const template =
    'instruments: { a: { file: a.sf2 } }\nroutes: [{ track: X, channel: 1, instrument: a }]\n';
  const tracks = [{ name: 'X', channel: 1 }, { name: 'X', channel: 2 }, { name: 'Y' }];
  const { text } = await update(template, ...tracks);
  const { unmapped, destinations } = routeAll(await templateOf(text), cueOf(tracks));
  expect(unmapped).toEqual([]);
  expect(destinations.map(({ instruments }) => instruments)).toEqual([['a'], ['a'], ['y']]);
});

test('a template that is not sound is named, not added to', async () => {
  await expect(update('rotes: []\n', 'Harp')).rejects.toMatchObject({
    name: 'TemplateError',
    finding: { code: 'yaml-key-unknown', file: 'keepset.yaml', at: { line: 1, column: 1 } },
  });
});
