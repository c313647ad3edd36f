import { afterEach, expect, test, vi } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';

const files = demoFiles();

const tables = [
  ...['high-strings', 'low-strings', 'section-strings', 'basses', 'fiddle'],
  ...['horns', 'trumpets', 'trombones', 'tuba'],
  ...['flutes', 'oboe', 'harp', 'timpani', 'percussion', 'choir', 'pads'],
];

afterEach(() => {
  vi.restoreAllMocks();
});

test('the demo is the same bytes twice, without chance, clock or engine-made sines', async () => {
  for (const name of ['random', 'sin', 'cos', 'pow', 'exp'] as const) {
    vi.spyOn(Math, name).mockReturnValue(0.123);
  }
  vi.spyOn(Date, 'now').mockReturnValue(0);
  vi.resetModules(); // tables are computed on import
  const fresh = await import('../../src/demo/demo.ts');
  expect(fresh.demoFiles).not.toBe(demoFiles);
  const second = fresh.demoFiles();
  expect(second.map(({ path }) => path)).toEqual(files.map(({ path }) => path));
  second.forEach(({ path, bytes }, index) => {
    expect(Buffer.compare(bytes, files[index]!.bytes), path).toBe(0);
  });
});

const isSample = ({ path }: { readonly path: string }): boolean =>
  path.startsWith('instruments/samples/');

test('nine cues, a revision, a bank, SFZ, two templates with tables, outlines and a text, under 16 MB', () => {
  expect(files.flatMap((file) => (isSample(file) ? [] : [file.path]))).toEqual([
    'README.txt',
    'keepset.yaml',
    'sfz.yaml',
    'tracks.csv',
    ...tables.map((name) => `tables/${name}.csv`),
    ...['outlines/bassoons.yaml', 'outlines/solo-cello.yaml'],
    'cues/1m1 Saltmere Titles.mid',
    'cues/1m2 Harbour v3.mid',
    'cues/1m2 Harbour v4.mid',
    'cues/1m3 Net Loft.mid',
    'cues/1m4 Lamp Room v2.mid',
    'cues/2m1 Low Water.mid',
    'cues/2m2 The Pilot Boat.mid',
    'cues/2m3 Fog Signal.mid',
    'cues/2m4 Slack Water.mid',
    'revisions/2m2 The Pilot Boat v2.mid',
    'instruments/chamber-strings.sfz',
    'instruments/chamber-strings/sustain.sfz',
    'instruments/chamber-strings/pizzicato.sfz',
    'instruments/clarinet.sfz',
    'instruments/deck.sfz',
    'instruments/upright.sfz',
    'instruments/harbour.sf2',
  ]);
  const total = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
  expect(total).toBeGreaterThan(10_000_000);
  expect(total).toBeLessThan(16_000_000);
});

test('some two hundred samples, each path once, none with a sign that a disk may refuse', () => {
  const paths = files.filter(isSample).map(({ path }) => path);
  expect(paths.length).toBeGreaterThan(150);
  expect(paths.length).toBeLessThan(250);
  expect(new Set(files.map(({ path }) => path.toLowerCase())).size).toBe(files.length);
  for (const path of paths) {
    expect(path).toMatch(/^instruments\/samples\/[a-z]+\/[a-z0-9 -]+\.(wav|aif|flac)$/);
  }
});

test('the text names commands, and every cue and instrument that is there', () => {
  const [readme, ...others] = files;
  const text = new TextDecoder().decode(readme!.bytes);
  expect(text).toContain('keepset usage cues\n');
  expect(text).toContain('keepset plan cues --instrument instruments/harbour.sf2\n');
  expect(text).toContain('keepset plan cues --instrument instruments/harbour.sf2 -o keep.json\n');
  expect(text).toMatch(/invented/i);
  expect(text).toMatch(/keep your full template safe/i);
  for (const command of [
    'plan',
    'plan --template sfz.yaml',
    'inspect tables/fiddle.csv --middle-c C4',
    'inspect instruments/chamber-strings.sfz',
    'inspect outlines/solo-cello.yaml',
    'draft cues -o mine.yaml',
    'draft cues -o mine-too.yaml --outlines drafted',
  ]) {
    expect(text).toContain(`  keepset ${command}\n`);
  }
  for (const file of others) {
    if (isSample(file)) {
      expect(text).toContain(file.path.split('/').slice(1, 3).join('/'));
      continue;
    }
    const { path } = file;
    expect(text).toContain(
      path.replace(
        /^(?:.*\/)?(.*?)( v2| v3| v4)?(\.mid|(?<=tables.*)\.csv|(?<=outlines.*)\.yaml)?$/,
        '$1',
      ),
    );
  }
  for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
});
