import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Settlements } from '../../src/terms/settlement.ts';

/**
 * What controllers do while a note sounds, worked out by hand from the rules of fades: a layer stays
 * when it can be heard at some time of the note, by some reading of the file.
 */
type Step = readonly [tick: number, status: number, data1: number, data2: number];

const eventOf = ([, status, data1, data2]: Step, deltaTime: number): MidiEvent => {
  const channel = status & 0x0f;
  if (status >> 4 === 0xb) {
    return { deltaTime, type: 'controller', channel, controllerType: data1, value: data2 };
  }
  const type = status >> 4 === 9 ? 'noteOn' : 'noteOff';
  return { deltaTime, type, channel, noteNumber: data1, velocity: data2 };
};

type Tracks = readonly (readonly [name: string, steps: readonly Step[]])[];

const cueOf = (tracks: Tracks): Uint8Array =>
  Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: tracks.length, ticksPerBeat: 480 },
      tracks: tracks.map(([text, steps]): MidiEvent[] => [
        { deltaTime: 0, meta: true, type: 'trackName', text },
        ...steps.map((step, i) => eventOf(step, step[0] - (steps[i - 1]?.[0] ?? 0))),
        { deltaTime: 0, meta: true, type: 'endOfTrack' },
      ]),
    }),
  );

const keptOf = async (
  table: string,
  steps: readonly Step[],
  settle: Settlements = {},
  route = "{ track: '*', instrument: band }",
  tracks: Tracks = [['Band', steps]],
): Promise<Readonly<Record<string, string>>> => {
  const files = new MemoryFiles({
    'keepset.yaml': `cues: cues\ninstruments: { band: { zones: band.csv, middle-c: C4 } }\nroutes: [${route}]\n`,
    'band.csv': table,
    'cues/1m1.mid': cueOf(tracks),
  });
  const { instruments } = await plan({ files, settle });
  return Object.fromEntries(
    instruments[0]!.kept.map(({ key, doubts }) => [
      key!,
      doubts.map((set) => (set.length === 0 ? 'plain' : set.join('+'))).join(', '),
    ]),
  );
};

const on = (tick: number): Step => [tick, 0x90, 60, 100];
const off = (tick: number): Step => [tick, 0x80, 60, 0];
const cc = (tick: number, number: number, value: number): Step => [tick, 0xb0, number, value];

const layers = `key,keys,controllers,bytes
lo,60,1:0-40,1
mid,60,1:41-80,1
hi,60,1:81-127,1
`;
const faders = `key,keys,controllers,bytes
lo-lo,60,1:0-63 & 21:0-63,1
hi-lo,60,1:64-127 & 21:0-63,1
lo-hi,60,1:0-63 & 21:64-127,1
hi-hi,60,1:64-127 & 21:64-127,1
`;

describe('while a note sounds', () => {
  test('resetting controllers takes them down with everything on the way (RP-015)', async () => {
    expect(await keptOf(layers, [cc(0, 1, 110), on(480), cc(600, 121, 0), off(960)])).toMatchObject(
      {
        lo: 'plain',
        mid: 'plain',
        hi: 'plain',
      },
    );
  });

  test('a fader that was never set stays in doubt while another moves', async () => {
    const kept = await keptOf(faders, [cc(0, 1, 0), on(480), cc(600, 1, 127), off(960)]);
    expect(kept).toEqual({ 'lo-lo': 'plain', 'hi-lo': 'plain' });
    const expression = faders.replaceAll('21:', '11:');
    const doubtful = await keptOf(expression, [cc(0, 1, 0), on(480), cc(600, 1, 127), off(960)]);
    // Expression is 127 at power-on; a player that starts it at 0 reaches the other half.
    expect(doubtful).toEqual({
      'lo-hi': 'plain',
      'hi-hi': 'plain',
      'lo-lo': 'start-state',
      'hi-lo': 'start-state',
    });
  });

  test('two faders that move on one tick may do so in either order', async () => {
    const steps = [cc(0, 1, 0), cc(0, 21, 0), on(480), cc(600, 1, 127), cc(600, 21, 127), off(960)];
    expect(await keptOf(faders, steps)).toEqual({
      'lo-lo': 'plain',
      'hi-lo': 'plain',
      'hi-hi': 'plain',
      'lo-hi': 'order',
    });
  });

  test('a controller on the tick of the note-off may come first', async () => {
    const steps = [cc(0, 1, 0), on(480), off(960), cc(960, 1, 127)];
    expect(await keptOf(layers, steps, { tail: 'plain' })).toEqual({
      lo: 'plain',
      mid: 'order',
      hi: 'order',
    });
  });

  test('a jump just before the note is smoothed, also when another follows on its tick', async () => {
    const steps = [cc(0, 1, 100), cc(470, 1, 20), on(480), cc(480, 1, 21), off(960)];
    expect(await keptOf(layers, steps)).toMatchObject({ lo: 'plain', mid: 'smoothing' });
  });
});

describe('after a note', () => {
  test('a release layer may fade in later', async () => {
    const table = `key,keys,controllers,release,bytes
sus,60,,,1
rel-soft,60,1:0-63,yes,1
rel-loud,60,1:64-127,yes,1
`;
    expect(await keptOf(table, [cc(0, 1, 20), on(480), off(960), cc(1_000, 1, 100)])).toEqual({
      sus: 'plain',
      'rel-soft': 'plain',
      'rel-loud': 'tail',
    });
  });

  test('a pedal on another channel of a joined copy holds it', async () => {
    const table = `key,articulation,switch,keys,release,bytes
a,long,24,60,,1
b,short,25,60,,1
a-rel,long,24,60,yes,1
b-rel,short,25,60,yes,1
`;
    const pno: readonly Step[] = [
      [0, 0x90, 24, 90],
      [10, 0x80, 24, 0],
      on(480),
      off(600),
      [700, 0x90, 25, 90],
    ];
    const pedal: readonly Step[] = [
      [400, 0xb1, 64, 127],
      [800, 0xb1, 64, 0],
    ];
    const tracks: Tracks = [
      ['Pno', pno],
      ['Pno pedal', pedal],
    ];
    const route = '{ join: [Pno, Pno pedal], instrument: band }';
    expect(await keptOf(table, [], {}, route, tracks)).toEqual({ a: 'plain', 'b-rel': 'plain' });
  });
});

test('velocity is scaled as decimal arithmetic has it: 45 x 0.7 = 31.5, rounded half up', async () => {
  const table = 'key,keys,velocities,bytes\nsoft,60,1-31,1\nloud,60,32-127,1\n';
  const route = "{ track: '*', instrument: band, velocity: 0.7 }";
  expect(await keptOf(table, [[0, 0x90, 60, 45], off(480)], {}, route)).toEqual({ loud: 'plain' });
});

test('an empty track of the same name does not change which copy a cue drives', async () => {
  const table = `key,articulation,switch,keys,bytes
a,long,24,60-61,1
b,short,25,60-61,1
`;
  const files = (more: Tracks) =>
    new MemoryFiles({
      'keepset.yaml': `cues: cues\ninstruments: { band: { zones: band.csv, middle-c: C4 } }\nroutes: [{ track: '*', instrument: band }]\n`,
      'band.csv': table,
      'cues/1m1.mid': cueOf([['Band', [on(0), off(240)]]]),
      'cues/1m2.mid': cueOf([['Band', [[0, 0x90, 25, 90], on(480), off(600)]], ...more]),
    });
  const kept = async (more: Tracks) => {
    const { instruments } = await plan({ files: files(more) });
    return instruments[0]!.kept.map(({ key, reasons }) => [key, ...reasons]);
  };
  const alone = await kept([]);
  expect(alone).toEqual([['b', 'played']]);
  expect(await kept([['Band', []]])).toEqual(alone);
});
