import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { withMicrophones } from '../../../src/instruments/loaded-microphones.ts';
import { loadInstruments } from '../../../src/jobs/load-instruments.ts';
import type { TemplateInstrument } from '../../../src/template/template.ts';
import { defaultPlayer } from '../../../src/template/player.ts';
import { InputError } from '../../../src/terms/errors.ts';

const outline = `middle-c: C4
articulations:
  sustain: { keys: C3-C4, sampled: [C3, C4], stretch: up, seconds: 1, microphones: [close, Tree] }
  thump: { keys: C5-C6, switch: none, seconds: 1, measured: "?" }
`;

const declare = (id: string, microphones: readonly string[] | null): TemplateInstrument => ({
  id,
  written: 'horns.yaml',
  source: { kind: 'outline', path: 'horns.yaml' },
  microphones,
  machine: 'default',
  player: defaultPlayer,
  settle: {},
  measured: [],
  at: { line: 7, column: 3 },
});

const load = (...declared: readonly TemplateInstrument[]) =>
  loadInstruments(new MemoryFiles({ 'horns.yaml': outline }), {
    instruments: declared,
    path: 'keepset.yaml',
  });

const consistent = ({ zones, samples, articulations, program }: Instrument): void => {
  expect(program.zones).toBe(zones.length);
  expect(program.starts.every(({ zone }) => zone < zones.length)).toBe(true);
  expect(zones.flatMap((zone) => zone.samples).every((one) => one < samples.length)).toBe(true);
  expect(new Set(zones.flatMap((zone) => zone.samples)).size).toBe(samples.length);
  const inLayers = articulations.flatMap(({ layers }) => layers.flatMap((layer) => layer.zones));
  expect(inLayers.toSorted((a, b) => a - b)).toEqual(zones.map((_, i) => i));
};

test('only the named microphones are loaded, and what names none', async () => {
  const loaded = await load(
    declare('all', null),
    declare('both', ['close', 'tree']),
    declare('far', ['TREE']),
    declare('near', ['close']),
  );
  const [all, both, far, near] = ['all', 'both', 'far', 'near'].map((id) => loaded.get(id)!);
  expect(all!.zones.map(({ microphone }) => microphone)).toEqual([
    'close',
    'Tree',
    'close',
    'Tree',
    null,
  ]);
  expect(far!.zones.map(({ microphone }) => microphone)).toEqual(['Tree', 'Tree', null]);
  // Ids and names stay those of the source.
  expect(far!.zones.map(({ id, key }) => [id, key])).toEqual(
    [1, 3, 4].map((i) => [all!.zones[i]!.id, all!.zones[i]!.key]),
  );
  for (const one of [all!, far!, near!]) consistent(one);
  expect(far!.articulations.map(({ name }) => name)).toEqual(['sustain', 'thump']);
  // With all of them it is the same instrument; with others it shares nothing.
  expect(both!.sha256).toBe(all!.sha256);
  expect(new Set([all!.sha256, far!.sha256, near!.sha256]).size).toBe(3);
  // What was found in the file is said once.
  expect(all!.findings.some(({ code }) => code === 'outline-open')).toBe(true);
  expect(far!.findings).toEqual([]);
});

test('a start plays the same sound as before', async () => {
  const all = (await load(declare('all', null))).get('all')!;
  const far = withMicrophones(all, ['tree']);
  const keyed = ({ program, zones }: Instrument) =>
    program.starts.map(({ zone, ...rest }) => ({ ...rest, key: zones[zone]!.key }));
  const before = keyed(all).filter(({ key }) => !key!.includes('close'));
  expect(before.length).toBeGreaterThan(0);
  expect(before.length).toBeLessThan(all.program.starts.length);
  expect(keyed(far)).toEqual(before);
});

test('what the display showed is of the microphones that are loaded', async () => {
  const files = new MemoryFiles({
    'horns.yaml': `middle-c: C4
microphones: [close, tree, hall]
articulations:
  sustain: { switch: C0, keys: C3-C4, sampled: [C3, C4], stretch: up, measured: 600 B }
  staccato: { switch: D0, keys: C3-C4, seconds: 1 }
`,
  });
  const load = async (microphones: readonly string[] | null): Promise<readonly number[]> => {
    const instruments = [declare('horns', microphones)];
    const { samples } = (await loadInstruments(files, { instruments })).get('horns')!;
    return samples.map(({ frames }) => frames);
  };
  expect(await load(null)).toEqual([100, 100, 100, 100, 100, 100, 48_000, 48_000, 48_000]);
  expect(await load(['close', 'hall'])).toEqual([150, 150, 150, 150, 48_000, 48_000]);
  expect(await load(['tree'])).toEqual([300, 300, 48_000]);
});

test('a microphone that is not there is told at the template, with what was meant', async () => {
  const error: unknown = await load(
    declare('horns', ['clsoe', 'hall']),
    declare('all', null),
  ).catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(InputError);
  const { finding, others } = error as InputError;
  expect([finding, ...others]).toMatchObject([
    {
      code: 'template-microphone',
      file: 'keepset.yaml',
      at: { line: 7, column: 3 },
      args: { instrument: 'horns', name: 'clsoe', near: 'close', known: ['close', 'Tree'] },
    },
    { args: { name: 'hall', near: null } },
  ]);
});
