/** The template of the smaller set: other paths, nothing else. Read again by the project's own reader, which has tests of its own. */
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import type { PlanSettings } from '../../src/keep/plan.ts';
import { readTemplate } from '../../src/template/read-template.ts';
import { singleTemplate } from '../../src/template/single.ts';
import type { Template } from '../../src/template/template.ts';
import type { TemplateChanges } from '../../src/trim/template-changes.ts';
import { trimmedTemplate } from '../../src/trim/trimmed-template.ts';

const read = (text: string, others: Readonly<Record<string, string>> = {}): Promise<Template> =>
  readTemplate(
    new MemoryFiles({ 'keepset.yaml': text, ...others }),
    'keepset.yaml',
    () => 'digest',
  );

const settingsOf = ({ settle, headroom, pins, slack, split }: Template): PlanSettings => ({
  instrument: null,
  settle,
  headroom,
  pins: pins.map(({ instrument, articulation, keys, velocities }) => ({
    instrument,
    articulation,
    keys,
    velocities,
  })),
  slack,
  allowUnmapped: false,
  without: [],
  newest: false,
  acceptPartial: [],
  split,
});

const changes = (template: Template, more: Partial<TemplateChanges> = {}): TemplateChanges => ({
  cues: template.cues.map((one) => `../${one}`),
  reel: null,
  leftOut: [],
  smaller: new Map(),
  moved: (path) => `../${path}`,
  settings: settingsOf(template),
  ...more,
});

const text = `# A score, its own words.
cues: cues/**/*.mid   # all of them
reel: [1m1, 1m2]
machines: { a: { memory: 8 GiB } }

instruments:
  strings: { file: inst/strings.sfz }      # the big one
  keys:
    file: "banks/keys.sf2"
    preset: "0:8"
    measured: { empty: 24 MiB, full: 1.4 GiB }
  harp: { zones: 'tables/harp.csv', middle-c: C4 }
  horns: { outline: outlines/horns.yaml }
tracks: tracks.csv
routes:
  - { track: "Str*", instrument: strings }
`;
const others = { 'tracks.csv': 'track,instrument\r\nHp,harp\r\n' };

describe('a template with other paths', () => {
  test('only paths are others; comments, blanks and order stay', async () => {
    const template = await read(text, others);
    const smaller = new Map([['strings', 'inst/strings.sfz']]);
    const written = trimmedTemplate(text, template, changes(template, { smaller }));
    expect(written)
      .toBe(`# Made by keepset trim: smaller instruments, with what the cues need and no more.
# Keep the full ones, and the template they belong to: keepset check holds revised cues against
# those. A plan with this template can not tell what is missing here.
${text
  .replace('cues/**/*.mid', '["../cues/**/*.mid"]')
  .replace('inst/strings.sfz', '"inst/strings.sfz"')
  .replace('"banks/keys.sf2"', '"../banks/keys.sf2"')
  .replace("'tables/harp.csv'", '"../tables/harp.csv"')
  .replace('outlines/horns.yaml', '"../outlines/horns.yaml"')
  .replace('tracks: tracks.csv', 'tracks: "../tracks.csv"')}`);
  });

  test('readings of the player belong to the full instrument', async () => {
    const template = await read(text, others);
    const smaller = new Map([['keys', 'banks/keys.sf2']]);
    const written = trimmedTemplate(text, template, changes(template, { smaller }));
    const again = await read(written, { '../tracks.csv': others['tracks.csv'] });
    expect(again.instruments.map(({ measured }) => measured)).toEqual([[], [], [], []]);
    expect(again.instruments.map(({ written: path }) => path)).toEqual([
      '../inst/strings.sfz',
      'banks/keys.sf2#0:8',
      '../tables/harp.csv',
      '../outlines/horns.yaml',
    ]);
    expect(written).toContain('# the big one');
  });

  test('cues in a list on lines of their own, and after it other keys', async () => {
    const before = 'cues:\n  - a.mid\n  - b.mid\n\ninstruments: { x: { file: x.sfz } }\n';
    const template = await read(before);
    const written = trimmedTemplate(before, template, changes(template));
    expect((await read(written)).cues).toEqual(['../a.mid', '../b.mid']);
    expect(written).toContain('\n\ninstruments: { x: { file: "../x.sfz" } }\n');
  });

  test.each([
    [
      'block',
      'instruments:\n  x: { file: x.sfz }\n  y: { file: y.sf2 }\npins:\n  - instrument: x\n',
    ],
    [
      'flow',
      '{ instruments: { x: { file: x.sfz }, y: { file: y.sf2 } }, pins: [{ instrument: x }] }\n',
    ],
    ['no pins', 'instruments: { x: { file: x.sfz }, y: { file: y.sf2 } }\n'],
  ])('what the command line said is written down: %s', async (_, before) => {
    const template = await read(before);
    const { pins, ...settings } = settingsOf(template);
    const said = {
      cues: ['../one more.mid'],
      reel: ['1m1'],
      settings: {
        ...settings,
        settle: { order: 'plain' as const, tail: 'accept' as const },
        headroom: { keys: 2, velocity: 8, controller: 0 },
        pins: [
          ...pins,
          { instrument: 'y', articulation: 'sustain: "soft"', keys: null, velocities: null },
          { instrument: 'x', articulation: null, keys: null, velocities: null },
        ],
        split: 'markers' as const,
      },
    };
    const again = await read(trimmedTemplate(before, template, changes(template, said)));
    expect(again.cues).toEqual(said.cues);
    expect(again.reel).toEqual(said.reel);
    expect(again.split).toBe('markers');
    expect(again.settle).toEqual(said.settings.settle);
    expect(again.headroom).toEqual(said.settings.headroom);
    // A pin that is there already is not written twice: that would be an error.
    const pinned = said.settings.pins.filter((pin, i) => i === 0 || pin.instrument === 'y');
    expect(settingsOf(again).pins).toEqual(pins.length === 0 ? said.settings.pins : pinned);
  });

  test('line ends stay as they are', async () => {
    const before = 'cues: c.mid\r\ninstruments: { x: { file: x.sfz } }\r\n';
    const template = await read(before);
    const written = trimmedTemplate(before, template, changes(template));
    expect(written.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/u);
  });

  test('names that could end a text do not', async () => {
    const before = 'cues: "a\\" b.mid"\ninstruments: { "x: #1": { file: "we \\"x\\".sfz" } }\n';
    const template = await read(before);
    const again = await read(trimmedTemplate(before, template, changes(template)));
    expect(again.cues).toEqual(['../a" b.mid']);
    expect(again.instruments[0]!.written).toBe('../we "x".sfz');
  });
});

describe('a template for one instrument that had none', () => {
  test.each([
    ['keys#0:48', { kind: 'soundfont', path: 'b/keys.sf2', preset: { bank: 0, program: 48 } }],
    ['keys', { kind: 'soundfont', path: 'b/keys.sf2', preset: null }],
    ['a "b"', { kind: 'sfz', path: 'a.sfz' }],
  ] as const)('%s', async (id, source) => {
    const template = singleTemplate(id, source);
    const settings: PlanSettings = {
      ...settingsOf(template),
      instrument: template.instruments[0]!.written,
      settle: { engine: 'plain' },
      headroom: { keys: 1, velocity: 0, controller: 3 },
      pins: [{ instrument: id, articulation: 'all "of" it', keys: null, velocities: null }],
    };
    const smaller = new Map([[id, source.path]]);
    const cues = ['../cues/1m1 "x".mid', '../2m1.mid'];
    const written = trimmedTemplate(null, template, changes(template, { cues, smaller, settings }));
    const again = await read(written);
    expect(again.cues).toEqual(cues);
    expect(again.instruments.map((one) => [one.id, one.source])).toEqual([[id, source]]);
    expect(again.routes.map(({ outcome }) => outcome)).toEqual(
      template.routes.map(({ outcome }) => outcome),
    );
    expect(again.routes[0]!.tracks).toEqual(template.routes[0]!.tracks);
    expect([again.settle, again.headroom]).toEqual([settings.settle, settings.headroom]);
    expect(settingsOf(again).pins).toEqual(settings.pins);
    expect(again.instruments[0]!.player).toEqual(template.instruments[0]!.player);
    expect(again.machines).toEqual(template.machines);
  });
});
