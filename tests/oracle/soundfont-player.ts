/**
 * Plays a cue on a SoundFont bank and says which zones it reaches, under which doubts: a slow second
 * opinion. Every start is tried with every reader, every patch, every key, every reading of global
 * ranges, and every pair of a preset zone and an instrument zone.
 *
 * Source of the zone rules: SoundFont Technical Specification 2.01, sections 7 to 9.
 */
import { doubtBits, minimal, plain, type Alternative } from './doubts.ts';
import type { OracleBank, OraclePreset, OracleZone, OracleZones, Range } from './soundfont-bank.ts';
import type { OracleEvent } from './soundfont-events.ts';
import { chosenPatches, isUnset, patchesAt, type ChosenPatches } from './soundfont-patches.ts';
import { followReader, otherReaders, plainReader, type Patch } from './soundfont-readers.ts';
import { startsOf } from './soundfont-starts.ts';

export { readBank, type OracleBank } from './soundfont-bank.ts';
export type { OracleEvent } from './soundfont-events.ts';
export { chosenPatches, type ChosenPatches } from './soundfont-patches.ts';

export interface OracleResult {
  /** Instrument zones that are reached, by ibag number, each with its minimal sets of doubts. */
  readonly zones: ReadonlyMap<number, readonly number[]>;
  /** The same by `preset,pbag,ibag`: place of the preset in the file, and both bag numbers. */
  readonly pairs: ReadonlyMap<string, readonly number[]>;
  /**
   * Voices started in the plain reading, by `channel,key,velocity` as played. A start that finds no
   * zone has no entry.
   */
  readonly plainStarts: ReadonlyMap<string, number>;
  /** Channels with a start before a tick has passed that set their patch: `start-state` was asked. */
  readonly open: ReadonlySet<number>;
}

/** Whether local zones without a range of their own take the range of the global zone. */
interface GlobalReading {
  readonly preset: boolean;
  readonly instrument: boolean;
  readonly doubts: number;
}

const globalReadings: readonly GlobalReading[] = [
  { preset: true, instrument: true, doubts: plain },
  { preset: true, instrument: false, doubts: doubtBits.engine },
  { preset: false, instrument: true, doubts: doubtBits.engine },
  { preset: false, instrument: false, doubts: doubtBits.engine },
];

/**
 * @param events One port, in file order.
 * @param chosen Patches chosen on each channel anywhere in the reel; without it, in these events.
 */
export function play(
  bank: OracleBank,
  events: readonly OracleEvent[],
  chosen: ChosenPatches = chosenPatches(events),
): OracleResult {
  const plainHistory = followReader(plainReader, events);
  const histories = [plainHistory, ...otherReaders.map((reader) => followReader(reader, events))];
  const zones = new Map<number, number[]>();
  const pairs = new Map<string, number[]>();
  const plainStarts = new Map<string, number>();
  const open = new Set<number>();

  for (const start of startsOf(events, plainHistory)) {
    const { index, channel, key, velocity } = start;
    const name = `${channel},${key},${velocity}`;
    if (isUnset(plainHistory, events, channel, events[index]?.tick ?? 0)) open.add(channel);

    // The plain reading: what the file says at this place, counted voice by voice.
    const [inFile] = patchesAt(plainHistory, events, chosen, channel, index);
    const [plainGlobals] = globalReadings;
    const [plainPreset] = inFile === undefined ? [] : findPresets(bank, inFile.value);
    if (start.doubts === plain && plainPreset && plainGlobals) {
      const voices = matchingPairs(bank, plainPreset.value, key, velocity, plainGlobals);
      if (voices.length > 0) plainStarts.set(name, (plainStarts.get(name) ?? 0) + voices.length);
    }

    for (const history of histories) {
      for (const patch of patchesAt(history, events, chosen, channel, index)) {
        for (const preset of findPresets(bank, patch.value)) {
          for (const tuned of start.keys) {
            for (const globals of globalReadings) {
              const doubts =
                start.doubts | patch.doubts | preset.doubts | tuned.doubts | globals.doubts;
              for (const pair of matchingPairs(
                bank,
                preset.value,
                tuned.value,
                velocity,
                globals,
              )) {
                add(zones, pair.ibag, doubts);
                add(pairs, `${preset.value.index},${pair.pbag},${pair.ibag}`, doubts);
              }
            }
          }
        }
      }
    }
  }
  return { zones, pairs, plainStarts, open };
}

/**
 * The presets of a patch, or what stands in for it; none is silence. Where several have the same
 * numbers the first in file order is the plain one, and another synthesiser may take another.
 */
function findPresets(bank: OracleBank, patch: Patch): Alternative<OraclePreset>[] {
  const exact = (bankNumber: number, program: number) => {
    const same = bank.presets.filter(
      (preset) => preset.bank === bankNumber && preset.program === program,
    );
    if (same.length === 0) return null;
    return same.map((value, i) => ({ value, doubts: i === 0 ? plain : doubtBits.engine }));
  };
  return (
    exact(patch.bank, patch.program) ??
    (patch.bank === 128 ? exact(128, 0) : (exact(0, patch.program) ?? exact(0, 0))) ??
    []
  );
}

/** Every preset zone with every instrument zone that the key and the velocity reach (section 9.4). */
function matchingPairs(
  bank: OracleBank,
  preset: OraclePreset,
  key: number,
  velocity: number,
  globals: GlobalReading,
): { pbag: number; ibag: number }[] {
  const found: { pbag: number; ibag: number }[] = [];
  for (const presetZone of preset.locals) {
    if (!covers(preset, presetZone, key, velocity, globals.preset)) continue;
    const instrument = bank.instruments[presetZone.target ?? -1];
    if (instrument === undefined) continue;
    for (const instrumentZone of instrument.locals) {
      if (!covers(instrument, instrumentZone, key, velocity, globals.instrument)) continue;
      found.push({ pbag: presetZone.index, ibag: instrumentZone.index });
    }
  }
  return found;
}

function covers(
  { global }: OracleZones,
  zone: OracleZone,
  key: number,
  velocity: number,
  inherits: boolean,
): boolean {
  const keys = zone.keys ?? (inherits ? global?.keys : null);
  const velocities = zone.velocities ?? (inherits ? global?.velocities : null);
  return within(keys, key) && within(velocities, velocity);
}

function within(range: Range | null | undefined, value: number): boolean {
  return !range || (value >= range.low && value <= range.high);
}

function add<Name>(found: Map<Name, number[]>, name: Name, doubts: number): void {
  found.set(name, minimal([...(found.get(name) ?? []), doubts]));
}
