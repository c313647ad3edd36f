import fc from 'fast-check';
import { writeMidi, type MidiEvent } from 'midi-file';
import { fmt, riff, wave, zeros } from '../samples/writers.ts';

/**
 * Small templates of one instrument, built as libraries are: articulations of layers by velocity and by
 * a controller, microphones, takes, releases, a noise that every articulation has. Invented.
 */

export type Limits = readonly [lowest: number, highest: number];

export interface Manner {
  readonly name: string;
  /** How many keys a recording covers. */
  readonly every: number;
  readonly velocities: readonly Limits[];
  readonly dynamics: readonly Limits[];
  readonly microphones: readonly string[];
  readonly takes: number;
  readonly releases: boolean;
}

export interface PromiseRig {
  readonly format: 'table' | 'sfz' | 'outline';
  readonly chosenBy: 'switch' | 'route';
  readonly manners: readonly Manner[];
  readonly controller: 1 | 11;
  /** Every articulation has it. */
  readonly noise: boolean;
  /** Recordings that the instrument lacks, of each so many one. */
  readonly holes: number;
  /** SFZ: the controller counts at the note-on alone. */
  readonly gates: boolean;
  readonly loaded: 'all' | 'close';
  readonly shares: 'machine' | 'copy';
  readonly unloads: string;
  readonly pin: Limits | null;
  readonly headroom: {
    readonly keys: number;
    readonly velocity: number;
    readonly controller: number;
  };
  readonly settle: string;
}

export const span: Limits = [48, 65];

const names = ['long', 'short', 'muted'] as const;

/** C0, C#0 and D0: below all keys that play. */
export const switchOf = (manner: number): number => 12 + manner;

/** Everything from `lo` to `hi`, divided at random; neighbours overlap a little, as crossfades do. */
const divided = (lo: number, hi: number, overlap: number): fc.Arbitrary<readonly Limits[]> =>
  fc.uniqueArray(fc.integer({ min: lo + 1, max: hi }), { maxLength: 2 }).map((some) => {
    const from = [lo, ...some.sort((a, b) => a - b)];
    return from.map((first, i): Limits => [
      Math.max(lo, first - overlap),
      Math.min(hi, (from[i + 1] ?? hi + 1) - 1 + overlap),
    ]);
  });

const manner = (name: string): fc.Arbitrary<Manner> =>
  fc.record({
    name: fc.constant(name),
    every: fc.constantFrom(3, 6, 9),
    velocities: divided(1, 127, 0),
    dynamics: fc.oneof(fc.constant([[0, 127] as const]), divided(0, 127, 0), divided(0, 127, 7)),
    microphones: fc.constantFrom([], ['close'], ['close', 'hall']),
    takes: fc.constantFrom(1, 1, 2),
    releases: fc.boolean(),
  });

export const promiseRig: fc.Arbitrary<PromiseRig> = fc.record({
  format: fc.constantFrom('table', 'table', 'sfz', 'outline'),
  chosenBy: fc.constantFrom('switch', 'route'),
  manners: fc
    .integer({ min: 1, max: names.length })
    .chain((count) => fc.tuple(...names.slice(0, count).map(manner))),
  controller: fc.constantFrom(1, 11),
  noise: fc.constantFrom(false, false, true),
  holes: fc.constantFrom(1000, 1000, 7),
  gates: fc.boolean(),
  loaded: fc.constantFrom('all', 'all', 'close'),
  shares: fc.constantFrom('machine', 'machine', 'copy'),
  unloads: fc.constantFrom('sample', 'sample', 'layer', 'articulation', 'microphone'),
  pin: fc.constantFrom(null, null, [50, 55] as const),
  headroom: fc.constantFrom(
    ...[0, 0, 2].map((keys) => ({ keys, velocity: 5 * keys, controller: 4 * keys })),
  ),
  settle: fc.constantFrom(
    '{}',
    '{}',
    '{ no-switch: plain, start-state: plain }',
    '{ stretch: plain, engine: plain }',
  ),
});

interface Zone {
  readonly manner: number | null;
  readonly keys: Limits;
  readonly velocity: Limits;
  readonly dynamic: Limits;
  readonly microphone: string;
  readonly take: string;
  readonly release: boolean;
}

const zonesOf = ({ manners, noise, holes, format }: PromiseRig): readonly Zone[] => {
  const zones: Zone[] = [];
  manners.forEach((own, manner) => {
    const takes = Array.from(
      { length: own.takes },
      (_, i) => `${String(i + 1)}/${String(own.takes)}`,
    );
    const microphones = format === 'sfz' || own.microphones.length === 0 ? [''] : own.microphones;
    for (let lo = span[0]; lo <= span[1]; lo += own.every) {
      const keys: Limits = [lo, Math.min(span[1], lo + own.every - 1)];
      for (const velocity of own.velocities) {
        for (const dynamic of own.dynamics) {
          for (const microphone of microphones) {
            for (const take of takes) {
              const zone = { manner, keys, velocity, dynamic, microphone, take };
              zones.push({ ...zone, release: false });
            }
          }
        }
      }
      if (own.releases) {
        const [velocity, dynamic]: readonly Limits[] = [
          [1, 127],
          [0, 127],
        ];
        const whole = { velocity: velocity!, dynamic: dynamic!, microphone: microphones[0]! };
        zones.push({ manner, keys, ...whole, take: '1/1', release: true });
      }
    }
  });
  const rest = zones.filter((_, i) => i % holes !== holes - 1);
  const whole = { velocity: [1, 127], dynamic: [0, 127] } as const;
  return noise
    ? [
        ...rest,
        { manner: null, keys: [54, 59], ...whole, microphone: '', take: '1/1', release: false },
      ]
    : rest;
};

const holds = ([lo, hi]: Limits, value: number): boolean => lo <= value && value <= hi;

/** Whether a note starts anything in the full instrument, as the template loads it. */
export const isAnswered = (rig: PromiseRig, { manner, key, velocity, dynamic }: Written): boolean =>
  rig.format === 'outline' ||
  zonesOf(rig).some(
    (zone) =>
      zone.manner === manner &&
      !zone.release &&
      (rig.loaded === 'all' || zone.microphone !== 'hall') &&
      holds(zone.keys, key) &&
      holds(zone.velocity, velocity) &&
      holds(zone.dynamic, dynamic),
  );

const dash = (limits: Limits): string => limits.join('-');

/** Releases are the samples that begin with `r`. */
const sampleName = (zone: Zone, i: number): string => `${zone.release ? 'r' : 's'}${String(i)}`;

const tableText = (rig: PromiseRig): string =>
  [
    'articulation,switch,keys,velocities,controllers,microphone,round-robin,release,sample,bytes',
    ...zonesOf(rig).map((zone, i) =>
      [
        zone.manner === null ? '' : rig.manners[zone.manner]!.name,
        zone.manner === null || rig.manners.length === 1 ? '' : String(switchOf(zone.manner)),
        dash(zone.keys),
        dash(zone.velocity),
        dash(zone.dynamic) === '0-127' ? '' : `${String(rig.controller)}:${dash(zone.dynamic)}`,
        zone.microphone,
        zone.take,
        zone.release ? 'yes' : '',
        sampleName(zone, i),
        String(1000 + i),
      ].join(','),
    ),
  ].join('\n');

const sfzFiles = (rig: PromiseRig): Readonly<Record<string, string | Uint8Array>> => {
  const zones = zonesOf(rig);
  const region = (zone: Zone, i: number): string => {
    const [lo, hi] = zone.dynamic;
    const cc = `cc${String(rig.controller)}`;
    const [position, length] = zone.take.split('/');
    const chosen = zone.manner === null || rig.manners.length === 1 ? null : zone.manner;
    return [
      `<region> sample=${sampleName(zone, i)}.wav lokey=${String(zone.keys[0])} hikey=${String(zone.keys[1])}`,
      `lovel=${String(zone.velocity[0])} hivel=${String(zone.velocity[1])}`,
      `seq_length=${length!} seq_position=${position!}`,
      ...(chosen === null
        ? []
        : [`sw_last=${String(switchOf(chosen))} sw_label=${rig.manners[chosen]!.name}`]),
      ...(rig.gates && (lo > 0 || hi < 127) ? [`lo${cc}=${String(lo)} hi${cc}=${String(hi)}`] : []),
      ...(!rig.gates && lo > 0 ? [`xfin_lo${cc}=${String(lo)} xfin_hi${cc}=${String(lo)}`] : []),
      ...(!rig.gates && hi < 127
        ? [`xfout_lo${cc}=${String(hi)} xfout_hi${cc}=${String(hi + 1)}`]
        : []),
      ...(zone.release ? ['trigger=release loop_mode=loop_continuous'] : []),
    ].join(' ');
  };
  return {
    'one.sfz': ['<control> default_path=wav/', ...zones.map(region)].join('\n'),
    ...Object.fromEntries(
      zones.map((zone, i) => [
        `wav/${sampleName(zone, i)}.wav`,
        wave(fmt({ rate: 48_000 }), riff('data', zeros(2000 + 2 * i))),
      ]),
    ),
  };
};

const outlineText = (rig: PromiseRig): string =>
  [
    'middle-c: C4',
    'seconds: 2',
    'articulations:',
    ...rig.manners.flatMap((own, i) => [
      `  ${own.name}:`,
      ...(rig.manners.length === 1 ? [] : [`    switch: ${['C0', 'C#0', 'D0'][i]!}`]),
      '    keys: C3-F4',
      `    sampled: C3..F4 every ${String(own.every)}`,
      `    layers: { velocity: [${own.velocities.map(dash).join(', ')}], cc${String(rig.controller)}: [${own.dynamics.map(dash).join(', ')}] }`,
      ...(own.takes > 1 ? [`    round-robins: ${String(own.takes)}`] : []),
      ...(own.microphones.length > 0 ? [`    microphones: [${own.microphones.join(', ')}]`] : []),
      ...(own.releases ? ['    releases: yes'] : []),
    ]),
  ].join('\n');

/** The template and its instrument. */
export const rigFiles = (rig: PromiseRig): Readonly<Record<string, string | Uint8Array>> => {
  const { format, chosenBy, manners, shares, unloads, headroom, settle, pin } = rig;
  const isByName = chosenBy === 'route' && (format !== 'sfz' || manners.length > 1);
  const mics = new Set(format === 'sfz' ? [] : manners.flatMap(({ microphones }) => microphones));
  const microphones = rig.loaded === 'close' && mics.size > 0 ? ', microphones: [close]' : '';
  const file = {
    table: 'zones: one.csv, middle-c: C4',
    sfz: 'file: one.sfz',
    outline: 'outline: one.yaml',
  };
  const template = `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, shares: ${shares}, unloads: ${unloads}, per-zone: 100 B } }
instruments: { one: { ${file[format]}${microphones} } }
routes: [ { track: '{art} *', instrument: one${isByName ? ", articulation: '{art}'" : ''} } ]
headroom: { keys: ${String(headroom.keys)}, velocity: ${String(headroom.velocity)}, controller: ${String(headroom.controller)} }
settle: ${settle}
${pin === null ? '' : `pins: [{ instrument: one, keys: ${dash(pin)}, velocities: 60-70 }]`}
`;
  return {
    'keepset.yaml': template,
    ...(format === 'table' ? { 'one.csv': tableText(rig) } : {}),
    ...(format === 'outline' ? { 'one.yaml': outlineText(rig) } : {}),
    ...(format === 'sfz' ? sfzFiles(rig) : {}),
  };
};

export const desks = ['A', 'B'] as const;
export type Desk = (typeof desks)[number];

/** The track, and so the copy, on which a desk plays an articulation. */
export const trackOf = ({ manners, chosenBy }: PromiseRig, manner: number, desk: Desk): string =>
  `${manners[chosenBy === 'route' ? manner : 0]!.name} ${desk}`;

/** A note with all that is set for it; each stands three bars from the next. */
export interface Written {
  /** Each desk drives a copy of its own. */
  readonly desk: Desk;
  readonly manner: number;
  readonly key: number;
  readonly velocity: number;
  readonly dynamic: number;
  /** Where the controller goes while it sounds; null: it stays. */
  readonly then: number | null;
}

/** Bars from one note to the next, so that bars tell them apart. */
const apart = 3;

/** The bar, from 1, of a note that stands at this place of its cue. */
export const barOf = (place: number): number => place * apart + 1;

const ticksPerBar = 4 * 480;

/**
 * A cue of these notes in their order, on each desk a track for each articulation where the track
 * chooses it, else one track, with a switch before each note.
 */
export const cueOf = (rig: PromiseRig, written: readonly Written[]): Uint8Array => {
  const { manners, chosenBy, controller } = rig;
  const placed = new Map<string, { tick: number; event: object }[]>(
    desks.flatMap((desk) => manners.map((_, manner) => [trackOf(rig, manner, desk), []])),
  );
  written.forEach(({ desk, manner, key, velocity, dynamic, then }, place) => {
    const track = placed.get(trackOf(rig, manner, desk))!;
    const from = (barOf(place) - 1) * ticksPerBar;
    const add = (tick: number, event: object): void => {
      track.push({ tick: from + tick, event });
    };
    const control = (value: number): object => ({
      ...{ type: 'controller', controllerType: controller, value },
    });
    const [on, off] = ['noteOn', 'noteOff'];
    if (chosenBy === 'switch') {
      add(0, { type: on, noteNumber: switchOf(manner), velocity: 100 });
      add(120, { type: off, noteNumber: switchOf(manner), velocity: 64 });
    }
    add(240, control(dynamic));
    add(480, { type: on, noteNumber: key, velocity });
    if (then !== null) add(720, control(then));
    add(960, { type: off, noteNumber: key, velocity: 64 });
  });
  return Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: placed.size, ticksPerBeat: 480 },
      tracks: [...placed].map(([text, events], channel): MidiEvent[] => {
        let last = 0;
        return [
          { deltaTime: 0, meta: true, type: 'trackName', text },
          ...events.map(({ tick, event }) => {
            const deltaTime = tick - last;
            last = tick;
            return { ...event, deltaTime, channel } as unknown as MidiEvent;
          }),
          { deltaTime: 0, meta: true, type: 'endOfTrack' },
        ];
      }),
    }),
  );
};
