/** The demo's template and tables, read as keepset reads them, and all that they are there to show. */
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { sha256 } from '../../src/files/digest.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { loadInstruments } from '../../src/jobs/load-instruments.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { readTemplate } from '../../src/template/read-template.ts';
import type { Outcome, Route } from '../../src/template/route.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore } from '../../src/template/routes/route-score.ts';
import type { TemplateInstrument } from '../../src/template/template.ts';

const demo = demoFiles();
const files = new MemoryFiles(Object.fromEntries(demo.map(({ path, bytes }) => [path, bytes])));
const textOf = (path: string): string =>
  new TextDecoder().decode(demo.find((file) => file.path === path)!.bytes);
const template = await readTemplate(files, 'keepset.yaml', (parts) => sha256(...parts));
const small = await readTemplate(files, 'sfz.yaml', (parts) => sha256(...parts));
const instruments = await loadInstruments(files, template);

const tables = demo.flatMap(({ path }) => (path.startsWith('tables/') ? [path] : []));
const cues = demo.filter(({ path }) => path.startsWith('cues/'));

const declared = (id: string): TemplateInstrument =>
  template.instruments.find((one) => one.id === id)!;

/** Cells of a table; no cell of the demo's holds what divides them. */
const columnsOf = (path: string): ReadonlyMap<string, readonly string[]> => {
  const text = textOf(path);
  const [heading = [], ...rows] = text
    .trimEnd()
    .split('\r\n')
    .map((line) => line.split(text.includes(';') ? ';' : ','));
  return new Map(heading.map((name, i) => [name, rows.map((row) => row[i]!)]));
};
const cells = (name: string): readonly string[] =>
  tables.flatMap((path) => columnsOf(path).get(name) ?? []).filter((cell) => cell !== '');

describe('reading', () => {
  test('the template: no warning, no note', () => {
    expect(template.findings).toEqual([]);
  });

  test('every table is read, named by an instrument, and without a warning', () => {
    const named = template.instruments.flatMap(({ source }) =>
      source.kind === 'zone-table' ? [source.path] : [],
    );
    expect([...named].sort()).toEqual([...tables].sort());
    expect(named).toHaveLength(16);
    for (const [id, { findings }] of instruments) {
      if (id !== 'solo-cello') expect(findings, id).toEqual([]);
    }
  });

  test('both outlines are named, and one thing in them is not looked up yet', () => {
    const outlines = demo.flatMap(({ path }) => (path.startsWith('outlines/') ? [path] : []));
    const named = template.instruments.flatMap(({ source }) =>
      source.kind === 'outline' ? [source.path] : [],
    );
    expect([...named].sort()).toEqual([...outlines].sort());
    expect(instruments.get('solo-cello')!.findings).toMatchObject([
      { code: 'outline-open', args: { count: 1 }, file: 'outlines/solo-cello.yaml' },
    ]);
  });

  test('the outlined cello: zones counted by hand, of two microphones out of three', () => {
    const { zones, articulations } = instruments.get('solo-cello')!;
    const both = 2;
    // Sixteen recorded keys in three dynamics, and a release each.
    const held = (16 * 3 + 16) * both;
    // An octave of transitions up and down to each of them.
    const transitions = 16 * 24 * both;
    // Twenty recorded keys, four dynamics, two takes of their own.
    const spiccato = 20 * 4 * 2 * both;
    // Fifteen recorded keys, three dynamics, three takes.
    const pizzicato = 15 * 3 * 3 * both;
    expect(zones).toHaveLength(held + (held + transitions) + spiccato + pizzicato + held);
    expect(new Set(zones.map(({ microphone }) => microphone))).toEqual(new Set(['close', 'tree']));
    expect(articulations.map(({ name }) => name)).toEqual([
      ...['sustain', 'legato', 'spiccato', 'pizzicato', 'tremolo'],
    ]);
  });

  test('the outlined bassoons: a zone for each articulation, and no more', () => {
    expect(instruments.get('bassoons')!.zones.map(({ key }) => key)).toEqual([
      ...['sustain A#1-E5', 'staccato A#1-E5', 'marcato A#1-C5', 'flutter C2-A#4', 'runs A#1-C5'],
    ]);
  });

  test('rows of the percussion bear names of their own, which its zones are known by', () => {
    const keys = instruments.get('percussion')!.zones.map(({ key }) => key);
    expect(keys).toContain('bass drum/1');
    expect(keys).toContain('triangle/48');
  });
});

describe('routes', () => {
  const log = new RouteLog();
  const routed = cues.map(({ path, bytes }) => {
    const id = /^cues\/(\w+)/.exec(path)![1]!;
    const score = readMidi(bytes, path);
    const parts = partsOf(score);
    const found = routeScore(template, id, score, parts, 0, instruments, log);
    return { path, score, parts, ...found };
  });
  const copiesOf = (start: string) =>
    routed.find(({ path }) => path.startsWith(`cues/${start}`))!.copies;

  test('every part with notes of every cue is routed', () => {
    expect(routed).toHaveLength(9);
    for (const { path, score, parts, copies, unmapped } of routed) {
      expect(unmapped, path).toEqual([]);
      for (const { track, channel, notes } of parts) {
        if (notes === 0) continue;
        const own = copies.filter(({ sources }) =>
          sources.some((one) => one.track === track && ((one.channels >> channel) & 1) === 1),
        );
        expect(own.length, `${path} ${String(score.tracks[track]!.name)}`).toBeGreaterThan(0);
      }
    }
  });

  test('the trumpets are the only ones that no rule leads notes to', () => {
    const played = new Set(
      routed.flatMap(({ copies }) => copies.map(({ instrument }) => instrument)),
    );
    expect(template.instruments.flatMap(({ id }) => (played.has(id) ? [] : [id]))).toEqual([
      'trumpets',
    ]);
  });

  test('articulations come out of the names of tracks', () => {
    const byName = new Map(
      routed.flatMap(({ copies }) =>
        copies.map(({ instrument, name, articulation }) => [
          `${instrument}: ${name}`,
          articulation,
        ]),
      ),
    );
    expect(Object.fromEntries(byName)).toMatchObject({
      'high-strings: Str hi leg as legato': 'legato',
      'low-strings: Str lo sus as sustain': 'sustain',
      'section-strings: Str stac as staccato': 'staccato',
      'section-strings: Str pizz as pizzicato': 'pizzicato',
      'section-strings: Str sord as con sordino': 'con sordino',
      'basses: Cb arco as arco': 'arco',
      'choir: Choir ah as ah': 'ah',
      'flutes: Fl 1 as sustain': 'sustain',
    });
  });

  test('2m4: one copy for horns and switches, two instruments for one track, a printed one', () => {
    const copies = copiesOf('2m4');
    const horns = copies.filter(({ instrument }) => instrument === 'horns');
    expect(horns.map(({ sources }) => sources.length)).toEqual([2]);
    expect(copies.find(({ instrument }) => instrument === 'pads')).toMatchObject({ printed: true });
    expect(copies.find(({ instrument }) => instrument === 'fiddle')!.articulation).toBeNull();
    expect(copies.find(({ name }) => name.startsWith('Alto fl'))).toMatchObject({
      instrument: 'flutes',
      articulation: null,
    });
    const low = copies.filter(({ name }) => name.startsWith('Low brass'));
    expect(low.map(({ instrument }) => instrument)).toEqual(['trombones', 'tuba']);
  });
});

describe('what the template shows', () => {
  const outcomes = template.routes.map(({ outcome }) => outcome);
  const plays = outcomes.filter((one): one is Outcome & { kind: 'play' } => one.kind === 'play');

  test('two machines, each with a reserve', () => {
    // 10 GiB less 3, 12 GiB less 4.
    expect(template.machines).toEqual([
      { id: 'a', budget: 7 * 2 ** 30 },
      { id: 'b', budget: 8 * 2 ** 30 },
    ]);
  });

  test('seven players: streamed and shared, whole and not shared, each with its grain', () => {
    const players = new Map(template.instruments.map(({ player }) => [player.id, player]));
    expect(Object.fromEntries(players)).toMatchObject({
      streaming: {
        ...{ loads: 'streamed', head: { unit: 'bytes', bytes: 192 * 1024 } },
        ...{ shares: 'machine', unloads: 'articulation' },
      },
      loading: { loads: 'whole', shares: 'copy', unloads: 'layer' },
      sealed: { loads: 'whole', shares: 'copy', unloads: 'instrument' },
      sampler: { loads: 'whole', shares: 'machine', unloads: 'sample' },
      reader: { loads: 'streamed', head: { unit: 'bytes', bytes: 32 * 1024 }, unloads: 'sample' },
      floats: { loads: 'whole', width: 4, unloads: 'sample' },
      'on-demand': { loads: 'whole', shares: 'copy', unloads: 'sample' },
    });
  });

  test('readings of a display: two at one streamed instrument, two at one that is loaded whole', () => {
    expect(declared('low-strings').measured.map(({ of }) => of)).toEqual(['full', 'sustain']);
    expect(declared('horns').measured.map(({ of }) => of)).toEqual(['empty', 'full']);
  });

  test('a preset of the bank, and a table where key 60 is C3', () => {
    expect(declared('celesta').source).toMatchObject({ preset: { bank: 0, program: 8 } });
    expect(declared('timpani').source).toMatchObject({ middleC: 3 });
  });

  test('SFZ instruments, the same four in both templates, each with its tracks', () => {
    const sfz = template.instruments.flatMap(({ id, source }) =>
      source.kind === 'sfz' ? [[id, source.path]] : [],
    );
    expect(sfz).toEqual([
      ['chamber', 'instruments/chamber-strings.sfz'],
      ['clarinet', 'instruments/clarinet.sfz'],
      ['deck', 'instruments/deck.sfz'],
      ['upright', 'instruments/upright.sfz'],
    ]);
    expect(small.instruments.map(({ id }) => id)).toEqual(sfz.map(([id]) => id));
    expect(small.findings).toEqual([]);
    for (const [id, { findings, samples }] of instruments) {
      if (sfz.some(([one]) => one === id)) expect(findings, id).toEqual([]);
      if (sfz.some(([one]) => one === id))
        expect(samples.every(({ present }) => present)).toBe(true);
    }
  });

  test('captures, a join, transposing to two instruments, a printed and an ignored track', () => {
    const has = (test: (route: Route) => boolean): boolean => template.routes.some(test);
    expect(
      has(({ tracks, outcome }) =>
        outcome.kind === 'play' && outcome.articulation === '{art}'
          ? tracks[0]!.text === 'Str hi {art}'
          : false,
      ),
    ).toBe(true);
    expect(has(({ join }) => join === 'Hn a4 sus + Hn switches')).toBe(true);
    expect(has(({ channel }) => channel === 9)).toBe(true);
    expect(plays.find(({ instruments: ids }) => ids.length === 2)).toMatchObject({
      instruments: ['trombones', 'tuba'],
      transform: { transpose: -12, velocity: 0.9, controllers: new Map([[11, 1]]) },
    });
    expect(plays.filter(({ printed }) => printed)).toHaveLength(1);
    expect(outcomes.filter(({ kind }) => kind === 'ignore')).toHaveLength(1);
  });

  test('a part of the tracks stands in tracks.csv, under headings of its own', () => {
    expect(textOf('tracks.csv')).toMatch(/^Track name,Plays,/);
    const rows = template.routes.filter(({ file }) => file === 'tracks.csv');
    expect(rows.length).toBeGreaterThan(5);
    expect(template.routes.length).toBeGreaterThan(rows.length);
  });

  test('a pin, no headroom, no slack, one doubt settled at one instrument', () => {
    expect(template.pins).toMatchObject([
      { instrument: 'timpani', keys: [36, 40], velocities: [109, 127] },
    ]);
    expect(template.headroom).toEqual({ keys: 0, velocity: 0, controller: 0 });
    expect(template.slack).toBe(0);
    expect(textOf('keepset.yaml')).toMatch(/^slack: 0$/m);
    expect(template.settle).toEqual({});
    expect(
      template.instruments.flatMap(({ id, settle }) =>
        Object.entries(settle).map((one) => [id, ...one]),
      ),
    ).toEqual([['fiddle', 'start-state', 'accept']]);
  });
});

describe('what the tables show', () => {
  test('lists, ranges of keys by rule, fades, layers, takes, microphones, releases', () => {
    expect(cells('keys')).toEqual(
      expect.arrayContaining(['A1..F5 every 3', 'C2..C6 every 2', '38|40']),
    );
    expect(cells('controllers').some((cell) => /^1:0-\d+\|1:\d+-127$/.test(cell))).toBe(true);
    expect(cells('velocities').some((cell) => /^(\d+-\d+\|){3,}\d+-127$/.test(cell))).toBe(true);
    expect(cells('round-robin')).toContain('4');
    expect(cells('microphone')).toContain('close|tree|wide|hall');
    expect(cells('release').every((cell) => cell === 'yes')).toBe(true);
    expect(cells('release').length).toBeGreaterThan(2);
  });

  test('sizes in seconds, in bytes with units and in frames', () => {
    expect(cells('seconds')).toEqual(expect.arrayContaining(['8.5', '5,5']));
    expect(cells('rate')).toEqual(expect.arrayContaining(['48000', '96 kHz', '44,1 kHz']));
    expect(cells('bytes')).toEqual(expect.arrayContaining(['2.7 MB', '420 KiB']));
    expect(cells('frames')).not.toEqual([]);
  });

  test('switches: keys, programs and a controller', () => {
    expect(cells('switch')).toEqual(
      expect.arrayContaining(['C0', 'program 60', 'program 61', 'cc 32: 0-41']),
    );
  });

  test('one table is divided by semicolons; its decimal commas are read as such', () => {
    expect(tables.filter((path) => textOf(path).includes(';'))).toEqual(['tables/timpani.csv']);
    // 5.5 s x 44 100 frames a second.
    expect(instruments.get('timpani')!.samples[0]).toMatchObject({ frames: 242_550, rate: 44_100 });
  });
});
