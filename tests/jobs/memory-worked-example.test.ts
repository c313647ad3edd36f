import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, test } from 'vitest';
import {
  changes,
  cues,
  grouping,
  instruments,
  keepsetYaml,
  machines,
  needs,
  otherMemories,
  placement,
  tables,
  total,
  withFrontMemory,
  type ExampleChange,
  type ExampleFigure,
  type ExampleGrouping,
  type InstrumentId,
  type MachineId,
  type Run,
} from '../../reference/memory-worked-example.ts';
import {
  ticksPerQuarter,
  type ExampleCue,
  type ExampleEvent,
  type ExampleTrack,
} from '../../reference/template-worked-example.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { memory, type MemoryOptions } from '../../src/jobs/memory.ts';
import type { LoadingGroups, ReelMemory } from '../../src/keep/reel/reel-memory.ts';

/**
 * The worked example of a reel, every byte of it computed by hand beforehand and by someone who had
 * not seen this program: from the text of the files to the result. `midi-file`, an independent
 * library, writes the cues.
 */
const eventOf = ([, status, data1, data2]: ExampleEvent, deltaTime: number): MidiEvent => {
  const note = { deltaTime, channel: status & 0x0f, noteNumber: data1, velocity: data2 };
  return status < 0x90 ? { ...note, type: 'noteOff' } : { ...note, type: 'noteOn' };
};

const trackOf = ({ name, events }: ExampleTrack): MidiEvent[] => [
  { deltaTime: 0, meta: true, type: 'trackName', text: name },
  ...events.map((event, i) => eventOf(event, event[0] - (events[i - 1]?.[0] ?? 0))),
  { deltaTime: 0, meta: true, type: 'endOfTrack' },
];

const bytesOf = ({ tracks }: ExampleCue): Uint8Array =>
  Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: tracks.length, ticksPerBeat: ticksPerQuarter },
      tracks: tracks.map(trackOf),
    }),
  );

const filesOf = (keepset: string): MemoryFiles =>
  new MemoryFiles({
    'keepset.yaml': keepset,
    ...tables,
    ...Object.fromEntries(cues.map((cue) => [cue.path, bytesOf(cue)])),
  });

const memoryOf = (options: MemoryOptions = {}, keepset = keepsetYaml): Promise<ReelMemory> =>
  memory({ files: filesOf(keepset), ...options });

const ids = Object.keys(instruments) as InstrumentId[];
const machineIds = Object.keys(machines) as MachineId[];
const all: Run = '1234';
const cueIds = (run: Run): readonly string[] => [...run].map((one) => cues[Number(one) - 1]!.id);
const runs = cues.map((_, cue) => String(cue + 1) as Run);

/** `low` is `likely` everywhere in this example. */
const figure = ({ likely, high }: ExampleFigure) => ({ bytes: likely, low: likely, high });

/** A result tells milliseconds. */
const rounded = (seconds: number): number => Math.round(seconds * 1_000) / 1_000;

const expectMachines = (
  found: LoadingGroups['groups'][number]['machines'],
  run: Run,
  change: ExampleChange,
): void => {
  expect(found).toEqual(
    machineIds.map((id) => ({
      id,
      ...figure(machines[id].runs[run]),
      load: change.machines[id].load,
      mayGo: change.machines[id].mayGo,
      fits: machines[id].runs[run].high <= machines[id].budget,
    })),
  );
};

describe('the worked example of a reel', async () => {
  const result = await memoryOf({ place: true });

  test('warns of the machine that is too small, and of nothing else', () => {
    // Its zones are wide on purpose: one sample over two octaves.
    const others = result.findings.filter(
      ({ severity, code }) => severity !== 'note' && code !== 'table-wide-zones',
    );
    const { budget, runs: figures } = machines.front;
    expect(others).toEqual([
      expect.objectContaining({
        code: 'memory-over-budget',
        args: { machine: 'front', high: figures[all].high, budget },
      }),
    ]);
  });

  test.each(cues.map(({ id }, cue) => [id, cue] as const))('cue %s', (id, cue) => {
    const found = result.cues[cue]!;
    const run = runs[cue]!;
    const change = changes[cue]!;
    const sum = machineIds.reduce((bytes, one) => bytes + machines[one].runs[run].high, 0);
    expect(found).toMatchObject({
      ...{ id, state: 'read', bytes: total.cues[cue], high: sum },
      ...{ load: change.load, mayGo: change.mayGo },
    });
    expectMachines(found.machines, run, change);
    const plays = (one: (typeof ids)[number], at: number): boolean =>
      Object.keys(needs[one][at] ?? {}).length > 0;
    // What goes as a whole has a row too.
    const playing = ids.filter((one) => plays(one, cue) || plays(one, cue - 1));
    expect(found.instruments).toEqual(
      playing.map((one) => ({
        id: one,
        machine: one === 'bells' ? 'rear' : 'front',
        ...(plays(one, cue) ? figure(instruments[one][run]) : { bytes: 0, low: 0, high: 0 }),
        // Its full state was read, and no cue needs all of it.
        basis: one === 'bells' && plays(one, cue) ? 'fitted' : 'computed',
        ...change.instruments[one],
        zones: new Set(Object.values(needs[one][cue]!).flatMap(({ held }) => held)).size,
      })),
    );
  });

  test.each(ids)('instrument %s', (id) => {
    const figures = runs.map((run) => instruments[id][run].likely);
    expect(result.instruments.find((one) => one.id === id)).toMatchObject({
      ...figure(instruments[id][all]),
      basis: id === 'bells' ? 'read' : 'computed',
      peak: Math.max(...figures),
      cues: figures.filter((bytes) => bytes > 0).length,
    });
  });

  test.each(machineIds)('machine %s', (id) => {
    const { budget, full, runs: figures, peak, reelFits, over } = machines[id];
    const cue = runs[cues.findIndex((one) => one.id === peak.cue)]!;
    expect(result.machines.find((one) => one.id === id)).toMatchObject({
      ...{ budget, full, fits: reelFits, over },
      ...figure(figures[all]),
      peak: { cue: peak.cue, ...figure(figures[cue]) },
    });
    expect(figures[cue].likely).toBe(peak.bytes);
  });

  test('the largest on the machine that is too small', () => {
    expect(result.machines.map(({ largest }) => largest)).toEqual([
      ['brass', 'bowed', 'reeds'].map((instrument) => ({
        instrument,
        bytes: instruments[instrument as InstrumentId][all].likely,
      })),
      [],
    ]);
  });

  test('the totals', () => {
    const { bytes, full, peak } = result.total;
    expect({ reel: bytes, full, peak }).toEqual({
      reel: total.reel,
      full: total.full,
      peak: total.peak,
    });
  });

  test('the groups', () => {
    expectGroups(result.groups!, grouping, grouping.changes);
    result.groups!.groups.forEach((group, g) => {
      expectMachines(group.machines, grouping.groups[g]!, grouping.changes[g]!);
    });
    expect(result.groups!.alone).toEqual([]);
  });

  test('the placement', () => {
    const { state, moves, bytes, gap, machines: placed, lines } = result.placement!;
    expect({ state, moves, bytes, gap }).toEqual({
      ...{ state: 'placed', gap: 0 },
      ...{ moves: placement.moves, bytes: placement.bytes },
    });
    expect(placed).toEqual(
      machineIds.map((id) => ({
        ...{ id, budget: machines[id].budget, fits: true },
        ...figure(placement.machines[id]),
      })),
    );
    const [line] = lines;
    expect(lines).toHaveLength(1);
    const written = keepsetYaml
      .split('\n')
      .map((own, i) => (i + 1 === line!.line ? line!.text : own));
    expect(written[line!.line - 1]).toContain('bowed:');
    return placedNow(written.join('\n'));
  });

  /** The template as the placement would have it. */
  const placedNow = async (keepset: string): Promise<void> => {
    const then = await memoryOf({ place: true }, keepset);
    expect(then.machines.map(({ high, fits }) => ({ high, fits }))).toEqual(
      machineIds.map((id) => ({ high: placement.machines[id].high, fits: true })),
    );
    expect(then).toMatchObject({ groups: null, placement: { state: 'fits', moves: [] } });
  };
});

const expectGroups = (
  found: LoadingGroups,
  { groups, loaded }: ExampleGrouping,
  into: readonly ExampleChange[],
): void => {
  expect(found.groups.map((group) => group.cues)).toEqual(groups.map(cueIds));
  expect(found.load).toBe(loaded);
  expect(
    found.groups.map(({ bytes, load, mayGo, seconds }) => ({ bytes, load, mayGo, seconds })),
  ).toEqual(
    into.map(({ load, mayGo, seconds }, g) => ({
      bytes: machineIds.reduce((sum, id) => sum + machines[id].runs[groups[g]!].likely, 0),
      ...{ load, mayGo, seconds: rounded(seconds) },
    })),
  );
  const seconds = into.slice(1).reduce((sum, change) => sum + change.seconds, 0);
  // Rounded group by group, and then once more.
  expect(Math.abs(found.seconds! - seconds)).toBeLessThanOrEqual(0.0005 * into.length);
};

describe.each(otherMemories)('with $memory on front', async (other) => {
  const { memory: size, budget, best, missing, moves } = other;
  const written = await memoryOf({ place: true }, withFrontMemory(size));
  const tried = await memoryOf({ place: true, budgets: { front: budget } });

  test('the same whether the template says so or a budget is tried', () => {
    expect(tried.settings.budgets).toEqual({ front: budget });
    expect({
      ...tried,
      settings: { ...tried.settings, budgets: {} },
      template: null,
    }).toEqual({ ...written, template: null });
    expect(tried.machines.map((one) => one.budget)).toEqual([budget, machines.rear.budget]);
  });

  test('the groups', () => {
    expect(tried.groups!.groups.map((group) => group.cues)).toEqual(best.groups.map(cueIds));
    expect(tried.groups!.load).toBe(best.loaded);
    if (best.groups.length === cues.length) expectGroups(tried.groups!, best, changes);
    expect(tried.groups!.alone).toEqual(
      Object.entries(missing).map(([cue, bytes]) => ({ cue, machine: 'front', missing: bytes })),
    );
  });

  test('the placement', () => {
    const { state, moves: found } = tried.placement!;
    expect({ state, moves: found.map(({ instrument, to }) => [instrument, to]) }).toEqual(
      moves === null
        ? { state: 'impossible', moves: [] }
        : { state: 'placed', moves: [[moves, 'rear']] },
    );
  });

  test('cues that do not fit alone are named', () => {
    const alone = tried.findings.filter(({ code }) => code === 'memory-cue-alone');
    expect(alone.map(({ args }) => args)).toEqual(
      Object.entries(missing).map(([cue, bytes]) => ({
        ...{ cues: [cue], machine: 'front', high: budget + bytes, budget },
      })),
    );
  });
});

describe('other orders', () => {
  test('change what is loaded at each cue, not what the reel needs', async () => {
    const written = await memoryOf();
    const turned = await memoryOf({ order: ['1m4', '1m3', '1m2', '1m1'] });
    expect(turned.cues.map(({ id }) => id)).toEqual(['1m4', '1m3', '1m2', '1m1']);
    const figuresOf = ({ machines: found }: ReelMemory) =>
      found.map(({ bytes, high }) => [bytes, high]);
    expect(figuresOf(turned)).toEqual(figuresOf(written));
    // Backwards, what came may go and what went comes.
    expect(turned.cues.slice(1).map(({ load, mayGo }) => ({ load, mayGo }))).toEqual(
      changes
        .slice(1)
        .reverse()
        .map(({ load, mayGo }) => ({ load: mayGo, mayGo: load })),
    );
  });
});
