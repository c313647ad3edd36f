import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, test } from 'vitest';
import {
  cues,
  doubts,
  instruments,
  keepsetYaml,
  machines,
  settledPlain,
  tables,
  ticksPerQuarter,
  total,
  type ExampleCue,
  type ExampleEvent,
  type ExampleTrack,
} from '../../reference/template-worked-example.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';

/**
 * The worked example of a template, every byte of it computed by hand beforehand and by someone who
 * had not seen this program: from the text of the files to the plan. `midi-file`, an independent
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

const files = new MemoryFiles({
  'keepset.yaml': keepsetYaml,
  ...tables,
  ...Object.fromEntries(cues.map((cue) => [cue.path, bytesOf(cue)])),
});

const keysOf = (result: Plan, id: string, zones: readonly number[]): readonly string[] => {
  const { kept, dropped } = result.instruments.find((one) => one.id === id)!;
  return [...kept, ...dropped].flatMap(({ zone, key }) => (zones.includes(zone) ? [key!] : []));
};

describe('the worked example of a template', async () => {
  const result = await plan({ files });

  test('finds nothing to complain about but the machine that is too small', () => {
    // Its zones are wide on purpose: one sample over two octaves.
    const others = result.findings.filter(
      ({ severity, code }) => severity !== 'note' && code !== 'table-wide-zones',
    );
    expect(others).toEqual([
      expect.objectContaining({
        code: 'machine-over-budget',
        args: {
          machine: 'right',
          high: machines.right.bytes.high,
          budget: machines.right.budget,
        },
      }),
    ]);
  });

  test.each(Object.entries(instruments))('%s', (id, expected) => {
    const found = result.instruments.find((one) => one.id === id)!;
    const { full, reached, kept, low, high, basis, readings } = found.bytes;
    expect({ full, reached, kept, low, high }).toEqual(expected.bytes);
    expect({ basis, readings }).toEqual({ basis: expected.basis, readings: expected.readings });
    expect(found.zones).toBe(expected.zones);
    expect(found.samples).toBe(expected.samples);
    expect(found.samplesKept).toBe(expected.samplesKept);
    const names = ({ key, reasons, doubts: sets }: (typeof found.kept)[number]) => ({
      key,
      reasons,
      doubts: sets,
    });
    expect(found.kept.map(names)).toEqual(expected.kept);
    expect(found.dropped.map(({ key }) => key)).toEqual(expected.dropped);
    const whole = found.kept.map(({ zone }) => zone);
    expect(
      Object.fromEntries(
        found.copies.map(({ name, kept: own }) => [name, keysOf(result, id, own ?? whole)]),
      ),
    ).toEqual(expected.copies);
  });

  test.each(Object.entries(machines))('machine %s', (id, expected) => {
    const found = result.machines.find((one) => one.id === id)!;
    expect({ budget: found.budget, bytes: found.bytes, fits: found.fits }).toEqual(expected);
  });

  test('the doubt and its price', () => {
    expect(result.doubts).toEqual(doubts.prices);
    expect(result.together).toEqual(doubts.together);
    expect(result.doubtsAll).toBe(doubts.all);
  });

  test('the totals', () => {
    const { bytes, zones, zonesKept, samples, samplesKept } = result.total;
    expect({ bytes, zones, zonesKept, samples, samplesKept }).toEqual(total);
  });

  test('with the doubt settled as plain', async () => {
    const settled = await plan({ files, settle: { 'start-state': 'plain' } });
    const { full, reached, kept, low, high } = settled.instruments.find(
      ({ id }) => id === 'reeds',
    )!.bytes;
    expect({ full, reached, kept, low, high }).toEqual(settledPlain.reeds);
  });
});
