import { selects, switchKeys } from '../instruments/switches.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { Start } from '../instruments/program.ts';
import type { CopyUsage, FileUsage } from '../playback/zone-usage.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { contains } from '../terms/range.ts';

/** What one copy does with keyswitches over the whole reel. */
interface Behaviour {
  readonly keys: Set<number>;
  chooses: boolean;
}

/**
 * Keyswitches that miss their instrument: pressed on a track of their own that is not joined to the
 * notes, or written in another octave than the instrument's definition has them.
 */
export const switchFindings = (
  instrument: Instrument,
  files: readonly FileUsage[],
): readonly Finding[] => {
  const switches = new Set(switchKeys(instrument.program));
  if (switches.size === 0) return [];
  const copies = behaviours(instrument, files);
  const isSwitch = (key: number): boolean => switches.has(key);
  const notes = [...copies].filter(
    ([, { keys, chooses }]) => !chooses && keys.size > 0 && ![...keys].every(isSwitch),
  );
  const pressing = [...copies].filter(
    ([, { keys, chooses }]) => chooses && keys.size > 0 && [...keys].every(isSwitch),
  );
  if (notes.length > 0 && pressing.length > 0) {
    const args = {
      instrument: instrument.id,
      switches: pressing.map(([name]) => name),
      notes: notes.map(([name]) => name),
    };
    return [finding('warning', 'join-suggested', instrument.source, args)];
  }
  if (notes.length === 0 || [...copies.values()].some(({ chooses }) => chooses)) return [];
  const played = new Set(notes.flatMap(([, { keys }]) => [...keys]));
  return octaveOff(instrument, switches, played);
};

/** Copies whose switches decide; those that a route ties to an articulation need none. */
const behaviours = (
  { id, program }: Instrument,
  files: readonly FileUsage[],
): ReadonlyMap<string, Behaviour> => {
  const copies = new Map<string, Behaviour>();
  for (const copy of files.flatMap((file) => file.copies)) {
    if (copy.instrument !== id || copy.articulation !== null) continue;
    let known = copies.get(copy.copy);
    if (known === undefined) copies.set(copy.copy, (known = { keys: new Set(), chooses: false }));
    for (const { event, key } of copy.classes) if (event === 'note-on') known.keys.add(key);
    known.chooses ||= choosesAny(copy, program.signals);
  }
  return copies;
};

const choosesAny = ({ chosen }: CopyUsage, signals: Instrument['program']['signals']): boolean =>
  chosen.some(({ signal, values }) => values.length > 0 && selects(signals[signal]!));

/** A definition may count octaves otherwise than the cues do: by one, seldom by two. */
const octaves = [-1, 1, -2, 2];

/** By going down; what starts when some key goes up may belong to another one that is held. */
const soundsBy = ({ event, keys }: Start, key: number): boolean =>
  event !== 'note-off' && event !== 'change' && contains(keys, key);

/** Switches lie a good way below or above what is played (common practice). */
const leastGap = 5;

/**
 * Keys that are just switches in another octave, several of them and well apart from all others that
 * are played: moved by an octave, a range may reach down to its own switches.
 */
const apart = (
  switches: ReadonlySet<number>,
  played: ReadonlySet<number>,
  octave: number,
): readonly number[] => {
  const seen = [...played].filter((key) => switches.has(key - 12 * octave));
  const others = [...played].filter((key) => !switches.has(key - 12 * octave));
  if (seen.length < 2 || others.length === 0) return [];
  const isBelow = Math.max(...seen) + leastGap <= Math.min(...others);
  const isAbove = Math.min(...seen) - leastGap >= Math.max(...others);
  return isBelow || isAbove ? seen : [];
};

/** Keys that start nothing, or stand apart, and are just a switch in another octave (common practice: middle C differs). */
const octaveOff = (
  { id, source, program }: Instrument,
  switches: ReadonlySet<number>,
  played: ReadonlySet<number>,
): readonly Finding[] => {
  const idle = [...played].filter((key) => !program.starts.some((one) => soundsBy(one, key)));
  const shifted = octaves
    .map((octave) => {
      const silent = idle.filter((key) => switches.has(key - 12 * octave));
      return { octave, seen: silent.length > 0 ? silent : apart(switches, played, octave) };
    })
    .sort((a, b) => b.seen.length - a.seen.length)[0]!;
  if (shifted.seen.length === 0) return [];
  const args = {
    instrument: id,
    expected: [...switches].sort((a, b) => a - b),
    seen: shifted.seen.toSorted((a, b) => a - b),
    octaves: shifted.octave,
  };
  return [finding('warning', 'switch-octave-off', source, args)];
};
