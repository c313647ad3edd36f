/** The primer of the demo: what it loads is what stays, seen by plans of the primer itself. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseMidi, writeMidi, type MidiData, type MidiEvent } from 'midi-file';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { demo } from '../../src/jobs/demo.ts';
import { plan } from '../../src/jobs/plan.ts';
import { primer, type MadePrimer } from '../../src/jobs/primer.ts';
import { verifyPrimer } from '../../src/jobs/verify-primer.ts';
import type { Plan } from '../../src/keep/plan.ts';

const patience = 300_000;

let folder = '';
let planned: Plan;
let made: MadePrimer;

const at = (name: string): string => join(folder, name);
const choice = () => ({ keep: at('keep.json'), template: at('sfz.yaml') });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keepset-primer-'));
  await demo(folder);
  planned = await plan({ template: at('sfz.yaml'), allowUnmapped: true });
  await writeFile(at('keep.json'), JSON.stringify(planned));
  made = await primer({ ...choice(), out: at('primer.mid') });
}, patience);

afterAll(() => rm(folder, { recursive: true, force: true }));

/** Zones that stay with their samples, by instrument. */
const staying = ({ instruments }: Plan): ReadonlyMap<string, ReadonlySet<number>> =>
  new Map(
    instruments.map(({ id, kept }) => [
      id,
      new Set(kept.filter(({ reasons }) => !reasons.includes('mutes')).map(({ zone }) => zone)),
    ]),
  );

/** Zones that a cue plays for certain, by a plan of that cue alone. */
const playedBy = async (cue: string): Promise<ReadonlyMap<string, ReadonlySet<number>>> => {
  const alone = await plan({ template: at('sfz.yaml'), cues: [cue], allowUnmapped: true });
  return new Map(
    alone.instruments.map(({ id, kept }) => [
      id,
      new Set(kept.filter(({ reasons }) => reasons.includes('played')).map(({ zone }) => zone)),
    ]),
  );
};

/** Every zone that stays, but those that the primer says it lacks. */
const due = ({ primer: { notPrimed } }: MadePrimer): ReadonlyMap<string, ReadonlySet<number>> =>
  new Map(
    [...staying(planned)].map(([id, zones]) => {
      const lacking = notPrimed.filter((one) => one.instrument === id).map(({ zone }) => zone);
      return [id, new Set([...zones].filter((zone) => !lacking.includes(zone)))];
    }),
  );

describe('a primer', () => {
  test('loads what stays and nothing else', { timeout: patience }, async () => {
    expect(await playedBy(at('primer.mid'))).toEqual(due(made));
    const counted = made.primer.machines.flatMap(({ instruments }) => instruments);
    expect(counted.length).toBeGreaterThan(2);
    for (const { id, zones, synthesised, excerpted, notPrimed } of counted) {
      expect(zones).toBe(staying(planned).get(id)!.size);
      expect(synthesised + excerpted + notPrimed).toBe(zones);
      expect(synthesised).toBeGreaterThan(0);
    }
  });

  test('is the file that was written, and begins as its base', async () => {
    expect(new Uint8Array(await readFile(at('primer.mid')))).toEqual(made.bytes);
    const path = at(made.primer.base.path);
    const names = ({ tracks }: MidiData): readonly (string | null)[] =>
      tracks.map((events) => events.find((one) => one.type === 'trackName')?.text ?? null);
    const [own, base] = [made.bytes, await readFile(path)].map((bytes) => names(parseMidi(bytes)));
    expect(own!.slice(0, base!.length)).toEqual(base);
    const added = made.primer.findings.filter(({ code }) => code === 'primer-track-added');
    expect(own!.length).toBe(base!.length + added.length);
  });

  test('is the same when it is made again, and takes its own place', async () => {
    const again = await primer({ ...choice(), out: at('primer.mid') });
    expect(again).toEqual(made);
  });

  test('is verified', async () => {
    const result = await verifyPrimer({ ...choice(), file: at('primer.mid') });
    expect(result.verdict).toBe('verified');
    expect(result.instruments.map(({ id, loaded }) => [id, loaded])).toEqual(
      [...due(made)].map(([id, { size }]) => [id, size]),
    );
  });
});

describe('bars of the cues', () => {
  test('alone load as much as the cues play for certain', { timeout: patience }, async () => {
    const only = await primer({ ...choice(), excerpts: 'only', out: at('only.mid') });
    expect(only.primer.excerpts.length).toBeGreaterThan(1);
    expect(only.primer.machines.flatMap(({ instruments }) => instruments)).toEqual(
      expect.arrayContaining([expect.objectContaining({ synthesised: 0 })]),
    );
    expect(await playedBy(at('only.mid'))).toEqual(due(only));
    for (const { because } of only.primer.notPrimed) expect(because).not.toBe('no-track');
    // Few bars: less than all the music there is.
    expect(only.primer.seconds).toBeLessThan(only.primer.reelSeconds);
    for (const { bars } of only.primer.excerpts) expect(bars[1]).toBeGreaterThanOrEqual(bars[0]);
  });

  test('are not there where nobody wants them', { timeout: patience }, async () => {
    const never = await primer({ ...choice(), excerpts: 'never' });
    expect(never.primer.excerpts).toEqual([]);
    expect(never.primer.notPrimed.length).toBeGreaterThanOrEqual(made.primer.notPrimed.length);
  });
});

describe('a file that was changed', () => {
  const verifyChanged = async (change: (events: MidiEvent[], name: string) => MidiEvent[]) => {
    const data = parseMidi(made.bytes);
    const tracks = data.tracks.map((events) =>
      change(events, events.find((one) => one.type === 'trackName')?.text ?? ''),
    );
    await writeFile(at('changed.mid'), Uint8Array.from(writeMidi({ ...data, tracks })));
    return verifyPrimer({ ...choice(), file: at('changed.mid') });
  };

  test('does not load what its lost track loaded', async () => {
    const result = await verifyChanged((events, name) =>
      name === 'Upright' ? events.filter(({ type }) => type === 'endOfTrack') : events,
    );
    expect(result.verdict).toBe('not-verified');
    const upright = result.instruments.find(({ id }) => id === 'upright')!;
    expect(upright.missing.length).toBe(due(made).get('upright')!.size);
    for (const { id, missing } of result.instruments) {
      if (id !== 'upright') expect(missing).toEqual([]);
    }
  });

  test('loads needlessly what another note plays', async () => {
    const dropped = planned.instruments.find(({ id }) => id === 'upright')!.dropped;
    expect(dropped.length).toBeGreaterThan(0);
    const every: MidiEvent[] = Array.from({ length: 88 }, (_, i) => i + 21).flatMap(
      (noteNumber): MidiEvent[] => [
        { deltaTime: 240, type: 'noteOn', channel: 0, noteNumber, velocity: 127 },
        { deltaTime: 240, type: 'noteOff', channel: 0, noteNumber, velocity: 64 },
      ],
    );
    const result = await verifyChanged((events, name) =>
      name === 'Upright' ? [...events.slice(0, -1), ...every, ...events.slice(-1)] : events,
    );
    expect(result.verdict).toBe('not-verified');
    const upright = result.instruments.find(({ id }) => id === 'upright')!;
    expect(upright.missing).toEqual([]);
    expect(upright.needless.length).toBeGreaterThan(0);
    const ids = new Set(dropped.map(({ zone }) => zone));
    for (const { zone } of upright.needless) expect(ids.has(zone)).toBe(true);
  });
});

describe('what can not be', () => {
  const refused = (more: object) => primer({ ...choice(), ...more });

  test('nothing but a primer gives way', async () => {
    for (const name of ['keep.json', 'sfz.yaml', made.primer.base.path]) {
      const before = await readFile(at(name));
      await expect(refused({ out: at(name) })).rejects.toThrow('output-exists');
      expect(await readFile(at(name))).toEqual(before);
    }
  });

  test('cues and machines that are not there', async () => {
    await expect(refused({ base: '9m9' })).rejects.toThrow('No cue is called "9m9".');
    await expect(refused({ machine: 'z' })).rejects.toThrow('No machine is called "z".');
  });
});
