import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../../src/files/memory-files.ts';
import type { Instrument } from '../../../../src/instruments/instrument.ts';
import { readSoundFont } from '../../../../src/instruments/soundfont/read.ts';
import { zoneTable } from '../../../../src/instruments/zone-table/read.ts';
import { readMidi } from '../../../../src/midi/read-midi.ts';
import type { Score } from '../../../../src/midi/score.ts';
import { doubtSet, type DoubtSet } from '../../../../src/terms/doubt.ts';
import { randomReel as randomFiles } from '../../../formats/random-cue.ts';
import { randomModel } from '../../../formats/random-model.ts';
import { writeTable } from '../../../formats/write-table.ts';
import { randomBank } from '../../../oracle/random-bank.ts';
import { randomEvents } from '../../../oracle/random-events.ts';
import { randomReel } from '../../../oracle/sfz-random.ts';
import { writeBank } from '../../../oracle/soundfont-bytes.ts';
import { scoreOf } from '../../../playback/oracle-score.ts';
import { readText, scoreOfSfz, sfzText } from '../../../playback/sfz-cue.ts';
import { layeredModel } from './layered-model.ts';
import { layeredSfz } from './layered-sfz.ts';
import { keptBy, missingZones, waysOf, type Kept } from './found.ts';
import { expectTrue, play } from './take-way.ts';

/**
 * Random instruments, what one reel keeps of them, and another reel that asks for more: every way out is
 * taken in a copy of the cues, which are then played and checked again. `KEEPSET_WAYS_RUNS` asks for
 * more of them, `KEEPSET_WAYS_SEED` for others.
 */
const asked = process.env['KEEPSET_WAYS_RUNS'];
const seed = Number(process.env['KEEPSET_WAYS_SEED'] ?? 5);
const sample = { numRuns: asked === undefined ? 150 : Number(asked), seed };

/** Ways of each kind that were taken. */
type Taken = Record<'velocity' | 'at-most' | 'at-least' | 'articulation', number>;

/** How a random case decides what stays. */
interface Decision {
  /** Doubts settled as plain. */
  readonly excluded: DoubtSet;
  /** Zones that are thrown out although they are played: more to be missed than by chance. */
  readonly out: readonly number[] | null;
}

const decision: fc.Arbitrary<Decision> = fc.record({
  excluded: fc.constantFrom(
    0,
    doubtSet('start-state'),
    doubtSet('start-state', 'order', 'smoothing'),
    doubtSet('start-state', 'order', 'smoothing', 'engine', 'tail', 'no-switch', 'pedal-held'),
  ),
  out: fc.oneof(
    { weight: 1, arbitrary: fc.constant(null) },
    { weight: 3, arbitrary: fc.array(fc.nat(12), { minLength: 1, maxLength: 3 }) },
  ),
});

const keptIn = (
  instrument: Instrument,
  planned: readonly Score[],
  now: readonly Score[],
  { excluded, out }: Decision,
): Kept => {
  if (out === null) return keptBy(instrument, play(instrument, planned), excluded);
  const kept = keptBy(instrument, play(instrument, [...planned, ...now]), excluded);
  const reached = [...kept.loaded];
  const thrown = new Set(out.map((i) => reached[i % Math.max(1, reached.length)]));
  return { ...kept, loaded: new Set(reached.filter((zone) => !thrown.has(zone))) };
};

const takeAll = (
  instrument: Instrument,
  scores: readonly Score[],
  kept: Kept,
  taken: Taken,
): void => {
  const files = play(instrument, scores);
  const misses = [...missingZones(instrument, files, kept)];
  const ways = waysOf(instrument, files, kept, misses);
  misses.forEach((zone, i) => {
    for (const way of ways[i]!) {
      expectTrue(instrument, scores, kept, zone, way);
      taken[way.kind === 'controller' ? way.limit : way.kind] += 1;
    }
  });
};

const none = (): Taken => ({ velocity: 0, 'at-most': 0, 'at-least': 0, articulation: 0 });

const scoresOf = (files: Readonly<Record<string, Uint8Array>>): readonly Score[] =>
  Object.entries(files).map(([path, bytes]) => readMidi(bytes, path));

describe('every way out is one', () => {
  test('zone tables', () => {
    const taken = none();
    const models = randomModel({ articulations: true, fades: true, releases: true });
    const reels = randomFiles({
      ...{ switches: true, controllers: true, modes: true, resets: true },
      moment: 120,
    });
    fc.assert(
      fc.property(
        fc.oneof(models, layeredModel),
        reels,
        reels,
        decision,
        (model, a, b, decided) => {
          const text = writeTable(model, { keyNames: false, size: 'frames' });
          const bytes = new TextEncoder().encode(text);
          const instrument = zoneTable(bytes, 'one.csv', 4, () => 'digest');
          const [planned, now] = [scoresOf(a), scoresOf(b)];
          takeAll(instrument, now, keptIn(instrument, planned, now, decided), taken);
        },
      ),
      sample,
    );
    if (asked !== undefined) console.log('tables', taken);
    expect(Math.min(...Object.values(taken)), JSON.stringify(taken)).toBeGreaterThan(0);
  });

  test('SFZ', async () => {
    const taken = none();
    await fc.assert(
      fc.asyncProperty(
        ...([layeredSfz, randomReel(), randomReel(), decision] as const),
        async (data, a, b, decided) => {
          const instrument = await readText(sfzText(data));
          const [planned, now] = [a.map(scoreOfSfz), b.map(scoreOfSfz)];
          takeAll(instrument, now, keptIn(instrument, planned, now, decided), taken);
        },
      ),
      sample,
    );
    expect(taken.velocity * taken['at-most'], JSON.stringify(taken)).toBeGreaterThan(0);
    if (asked !== undefined) console.log('sfz', taken);
  });

  test('SoundFonts', async () => {
    const taken = none();
    await fc.assert(
      fc.asyncProperty(
        ...([randomBank(), randomEvents(), randomEvents(), decision] as const),
        async (bank, a, b, decided) => {
          const files = new MemoryFiles({ 'bank.sf2': writeBank(bank) });
          const instrument = await readSoundFont(files, 'bank.sf2', null, () => 'digest');
          const [planned, now] = [[scoreOf(a)], [scoreOf(b)]];
          takeAll(instrument, now, keptIn(instrument, planned, now, decided), taken);
        },
      ),
      sample,
    );
    expect(taken.velocity * taken.articulation, JSON.stringify(taken)).toBeGreaterThan(0);
    if (asked !== undefined) console.log('soundfonts', taken);
  });
});
