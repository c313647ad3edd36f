import type { SampleHeader } from '../../../samples/sample-header.ts';
import type { RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/** Opcodes that change the speed or the start while it plays, by amounts that no file tells. */
const unforeseen =
  /^(?:pitch_|pitcheg_|pitchlfo_|tune_|bend_st|delay_(?!random$|samples$)|eg\d+_pitch|lfo\d+_pitch|pitch\d|end_|sync_|oscillator|var\d+_|(?:global|master|group)_(?:tune|pitch|transpose)|loop_count|stop_)/u;

/** A loop in the file counts unless the region says otherwise. */
const mayLoop = (opcodes: RegionOpcodes, { loop }: SampleHeader): boolean => {
  const mode = opcodes.text('loop_mode');
  return mode === null ? loop !== null : loops.has(mode);
};

const loops: ReadonlySet<string> = new Set(['loop_continuous', 'loop_sustain']);

/** Of those, the ones that are accounted for. */
const foreseen = new Set(['pitch_keycenter', 'pitch_keytrack', 'pitch_veltrack', 'pitch_random']);

/** Semitones by which a wheel bends down where a region does not say (documentation, `bend_down`). */
const defaultBend = -200;

/**
 * The longest that a region can sound from its start to the end of its sample, in seconds, at its
 * slowest: its lowest key, bent down as far as it goes. Infinity where that cannot be said.
 */
export const longestSeconds = (
  opcodes: RegionOpcodes,
  keys: readonly RangeReading[],
  noteOffset: number,
  header: SampleHeader | null,
): number => {
  if (header === null || header.rate <= 0 || mayLoop(opcodes, header)) return Infinity;
  for (const name of opcodes.names) {
    if (unforeseen.test(name) && !foreseen.has(name)) return Infinity;
  }
  const end = opcodes.whole('end');
  const last = end === null || end <= 0 ? header.frames : Math.min(end + 1, header.frames);
  const first = Math.max(opcodes.whole('offset') ?? 0, 0);
  const frames = Math.max(last - first, 0) * Math.max(opcodes.whole('count') ?? 1, 1);
  const seconds = frames / header.rate / 2 ** (slowestCents(opcodes, keys, noteOffset) / 1200);
  const delays =
    Math.max(opcodes.number('delay') ?? 0, 0) +
    Math.max(opcodes.number('delay_random') ?? 0, 0) +
    Math.max(opcodes.number('delay_samples') ?? 0, 0) / header.rate;
  return seconds + delays;
};

const slowestCents = (
  opcodes: RegionOpcodes,
  keys: readonly RangeReading[],
  noteOffset: number,
): number => {
  // A centre that the sample itself names is not known here; offsets move it in some engines.
  const written = [opcodes.key('pitch_keycenter'), opcodes.key('key')].flatMap((key) => key ?? []);
  const centres =
    opcodes.text('pitch_keycenter') === 'sample'
      ? [0, 127]
      : (written.length > 0 ? written : [60]).flatMap((key) => [key, key + noteOffset]);
  const tracking = opcodes.number('pitch_keytrack') ?? 100;
  const ends = keys.flatMap(({ range: [lo, hi] }) => [Math.max(lo, 0), hi]);
  const byKey = ends.flatMap((key) => centres.map((centre) => (key - centre) * tracking));
  const bends = ['bend_up', 'bend_down'].map(
    (name) => -Math.abs(opcodes.number(name) ?? defaultBend),
  );
  return (
    Math.min(0, ...byKey) +
    Math.min(...bends) +
    Math.min(opcodes.number('transpose') ?? 0, 0) * 100 +
    Math.min(opcodes.number('tune') ?? opcodes.number('pitch') ?? 0, 0) -
    Math.abs(opcodes.number('pitch_veltrack') ?? 0) -
    Math.abs(opcodes.number('pitch_random') ?? 0)
  );
};
