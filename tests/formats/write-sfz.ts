import { fmt, riff, wave, zeros } from '../samples/writers.ts';
import { sampleName, type Limits, type Model, type ModelZone } from './model.ts';
import { watchedKeys } from './random-model.ts';

/** Ways to write one and the same instrument. */
export interface SfzStyle {
  /** Opcodes that an articulation's regions share stand in a `<group>` in front of them. */
  readonly groups: boolean;
  readonly keyNames: boolean;
  /** Velocities as crossfades of one step, which leave the same ones to be heard. */
  readonly velocityFades: boolean;
  /** How wide controllers fade in and out; 0: at once, with both limits equal. */
  readonly fadeSteps: number;
  /** Switches watched in a range that holds all of them, and others that no cue presses. */
  readonly watched: boolean;
  readonly defaultPath: boolean;
  /** Octaves that `<control>` adds to keys: only without switches, where all readings agree. */
  readonly octaves: -1 | 0 | 1;
}

type Opcodes = Readonly<Record<string, string | number>>;

/** The text of an SFZ file, and its samples: 16 bit mono WAV. */
export const writeSfz = (
  model: Model,
  path: string,
  style: SfzStyle,
): Readonly<Record<string, string | Uint8Array>> => {
  const header = (name: string, opcodes: Opcodes): string =>
    [`<${name}>`, ...Object.entries(opcodes).map(([key, value]) => `${key}=${String(value)}`)].join(
      ' ',
    );
  const octaves = model.articulations.length === 0 ? style.octaves : 0;
  const control: Opcodes = {
    ...(octaves === 0 ? {} : { octave_offset: octaves }),
    ...(style.defaultPath ? { default_path: 'wav/' } : {}),
  };
  const lines = [
    ...(Object.keys(control).length === 0 ? [] : [header('control', control)]),
    header('global', asTables),
  ];
  let group: number | null | undefined;
  for (const zone of model.zones) {
    const shared = switchOpcodes(model, zone, style);
    if (style.groups && zone.articulation !== group) lines.push(header('group', shared));
    group = zone.articulation;
    const own = regionOpcodes(zone, style, 12 * octaves);
    lines.push(header('region', style.groups ? own : { ...shared, ...own }));
  }
  return {
    [path]: lines.join('\n'),
    ...Object.fromEntries(
      model.samples.map(({ frames, rate }, i) => [
        `wav/${sampleName(i)}.wav`,
        wave(fmt({ rate }), riff('data', zeros(2 * frames))),
      ]),
    ),
  };
};

/**
 * What a table takes for granted: pedals are down from 64 on, and a note may die away for longer than
 * any cue here lasts.
 */
const asTables: Opcodes = { sustain_lo: 64, sostenuto_lo: 64, ampeg_release: 100 };

const switchOpcodes = (model: Model, zone: ModelZone, style: SfzStyle): Opcodes => {
  if (zone.articulation === null) return {};
  const { name, switchKey } = model.articulations[zone.articulation]!;
  const watched = { sw_lokey: watchedKeys[0], sw_hikey: watchedKeys[1] };
  return { ...(style.watched ? watched : {}), sw_last: switchKey, sw_label: name };
};

/** A release without end, as that of a table; for a one-shot SFZ knows better. */
const releasing = { loop_mode: 'loop_continuous' } as const;

const starts: Readonly<Record<ModelZone['starts'], Opcodes>> = {
  'note-on': {},
  release: { trigger: 'release', ...releasing },
  'note-off': { trigger: 'release_key', ...releasing },
};

const regionOpcodes = (zone: ModelZone, style: SfzStyle, offset: number): Opcodes => {
  const key = (number: number): string => keyText(number - offset, style);
  const [lo, hi] = zone.keys;
  return {
    ...(lo === hi ? { key: key(lo) } : { lokey: key(lo), hikey: key(hi) }),
    ...velocityOpcodes(zone.velocities, style),
    ...Object.fromEntries(
      zone.fades.flatMap(({ controller, limits }) =>
        Object.entries(fadeOpcodes(`cc${String(controller)}`, limits, style.fadeSteps)),
      ),
    ),
    ...starts[zone.starts],
    sample: `${style.defaultPath ? '' : 'wav/'}${sampleName(zone.sample)}.wav`,
  };
};

const velocityOpcodes = (limits: Limits, { velocityFades }: SfzStyle): Opcodes =>
  velocityFades ? fadeOpcodes('vel', limits, 1) : { lovel: limits[0], hivel: limits[1] };

/**
 * Crossfades that leave `limits` to be heard. The open SFZ documentation has gain 0 up to `xfin_lo` and
 * from `xfout_hi` on; with both limits of a fade equal the limit itself is heard.
 */
const fadeOpcodes = (what: string, [lo, hi]: Limits, steps: number): Opcodes => {
  const fadeIn =
    steps === 0
      ? { [`xfin_lo${what}`]: lo, [`xfin_hi${what}`]: lo }
      : { [`xfin_lo${what}`]: lo - 1, [`xfin_hi${what}`]: Math.min(lo - 1 + steps, 127) };
  // Down to 0 at once is a fade out that some engines leave aside.
  const fadeOut =
    steps === 0 && hi > 0
      ? { [`xfout_lo${what}`]: hi, [`xfout_hi${what}`]: hi }
      : {
          [`xfout_lo${what}`]: Math.max(hi + 1 - Math.max(steps, 1), 0),
          [`xfout_hi${what}`]: hi + 1,
        };
  return { ...(lo > 0 ? fadeIn : {}), ...(hi < 127 ? fadeOut : {}) };
};

const names = ['c', 'c#', 'd', 'd#', 'e', 'f', 'f#', 'g', 'g#', 'a', 'a#', 'b'];

/** Key 60 is c4 (the open SFZ documentation, `key`). */
const keyText = (key: number, { keyNames }: SfzStyle): string =>
  keyNames ? `${names[key % 12]!}${String(Math.floor(key / 12) - 1)}` : String(key);
