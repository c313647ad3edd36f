import { pitchedFile, type Format, type SampleFile, type SfzFiles } from './sfz-sounds.ts';
import {
  header,
  keysOfStretch,
  sfzText,
  stretches,
  threeDigits,
  type Opcodes,
} from './sfz-text.ts';
import type { Tone } from './tones.ts';

/** The chamber strings' keyswitches. The range that is watched holds one key more, which has none. */
export const chamberSwitches = { sustain: 24, tremolo: 25, pizzicato: 26, none: 27 } as const;

/** Keys that sound. */
const [lowest, highest] = [41, 88];

const bowed: Omit<Tone, 'bright'> = {
  ...{ seconds: 0.45, looped: true, even: 0.9, rise: 0.06, strike: 0.15, noise: 0.1 },
};
const shaken = { ...bowed, seconds: 0.6, strike: 0.5, noise: 0.3 };
const plucked = {
  ...{ seconds: 0.5, looped: false, even: 0.7, rise: 0.002, strike: 0.6, noise: 0.15 },
};
/** What is left when the bow leaves the string. */
const leaving = { ...plucked, seconds: 0.3, rise: 0.004, strike: 0.05, noise: 0.4 };

const wide: Format = { channels: 2, bits: 24 };
const plain: Format = { channels: 2, bits: 16 };
const single: Format = { channels: 1, bits: 16 };

/** Three dynamics, each fading into the next by the modulation wheel: `$WHEEL` is in every name. */
const dynamics: readonly {
  readonly mark: string;
  readonly bright: number;
  readonly fades: Opcodes;
}[] = [
  { mark: 'p', bright: 0.08, fades: { xfout_locc$WHEEL: 36, xfout_hicc$WHEEL: 52 } },
  {
    ...{ mark: 'mf', bright: 0.3 },
    fades: {
      ...{ xfin_locc$WHEEL: 36, xfin_hicc$WHEEL: 52 },
      ...{ xfout_locc$WHEEL: 84, xfout_hicc$WHEEL: 100 },
    },
  },
  { mark: 'f', bright: 0.7, fades: { xfin_locc$WHEEL: 84, xfin_hicc$WHEEL: 100 } },
];

/** Two for the tremolo. */
const halves: typeof dynamics = [
  { mark: 'p', bright: 0.15, fades: { xfout_locc$WHEEL: 56, xfout_hicc$WHEEL: 72 } },
  { mark: 'f', bright: 0.55, fades: { xfin_locc$WHEEL: 56, xfin_hicc$WHEEL: 72 } },
];

/**
 * A small string section: switches that stay until the next, dynamics that a controller fades,
 * velocity layers with round robins, and what is heard when the bow leaves the string. Two
 * articulations stand in included files, and the names of the switches are variables.
 */
export const chamberStrings = (): SfzFiles => {
  const sustain = sustained();
  const tremolo = faded('trem', halves, { ...shaken }, plain);
  const pizzicato = plucks();
  return {
    texts: [
      { path: 'chamber-strings.sfz', text: sfzText([...opening, ...tremolo.lines]) },
      { path: 'chamber-strings/sustain.sfz', text: sfzText(sustain.lines) },
      { path: 'chamber-strings/pizzicato.sfz', text: sfzText(pizzicato.lines) },
    ],
    samples: [...sustain.samples, ...tremolo.samples, ...pizzicato.samples],
  };
};

const opening: readonly string[] = [
  '// Saltmere chamber strings: invented for the keepset demo, every sample computed by rule.',
  '// Keys 24 to 26 choose the articulation; controller 1 fades through the dynamics.',
  `#define $SUSTAIN ${String(chamberSwitches.sustain)}`,
  `#define $TREMOLO ${String(chamberSwitches.tremolo)}`,
  `#define $PIZZICATO ${String(chamberSwitches.pizzicato)}`,
  '#define $WHEEL 1',
  '',
  // Before the wheel is moved: the middle dynamic alone.
  header('control', { default_path: 'samples/chamber/', set_cc$WHEEL: 64 }),
  header('global', {
    ...{ sw_lokey: '$SUSTAIN', sw_hikey: chamberSwitches.none, sw_default: '$SUSTAIN' },
  }),
  '#include "chamber-strings/sustain.sfz"',
  '#include "chamber-strings/pizzicato.sfz"',
  '',
  header('master', { sw_last: '$TREMOLO', sw_label: 'tremolo', ampeg_release: 0.4 }),
];

interface Written {
  readonly lines: readonly string[];
  readonly samples: readonly SampleFile[];
}

const faded = (
  stem: string,
  layers: typeof dynamics,
  tone: Omit<Tone, 'bright'>,
  format: Format,
): Written => {
  const lines: string[] = [];
  const samples: SampleFile[] = [];
  for (const { mark, bright, fades } of layers) {
    lines.push(header('group', { ...fades, loop_mode: 'loop_continuous' }));
    for (const stretch of stretches(lowest, highest, 4)) {
      const name = `${stem}-${mark}-${threeDigits(stretch.centre)}.wav`;
      samples.push(pitchedFile(name, stretch.centre, { ...tone, bright }, format));
      lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
    }
  }
  return { lines, samples };
};

/** The release belongs to the sustain: after the switch to another articulation it is not heard. */
const sustained = (): Written => {
  const bows = faded('sus', dynamics, bowed, wide);
  const lines = [
    header('master', { sw_last: '$SUSTAIN', sw_label: 'sustain', ampeg_release: 1.2 }),
    ...bows.lines,
    '',
    header('group', { trigger: 'release', rt_decay: 6 }),
  ];
  const samples = [...bows.samples];
  for (const stretch of stretches(lowest, highest, 6)) {
    const name = `off-${threeDigits(stretch.centre)}.wav`;
    samples.push(pitchedFile(name, stretch.centre, { ...leaving, bright: 0.2 }, wide));
    lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
  }
  return { lines, samples };
};

const plucks = (): Written => {
  const lines = [header('master', { sw_last: '$PIZZICATO', sw_label: 'pizzicato' })];
  const samples: SampleFile[] = [];
  const layers = [
    { mark: 'p', lovel: 1, hivel: 72, bright: 0.2 },
    { mark: 'f', lovel: 73, hivel: 127, bright: 0.6 },
  ];
  for (const { mark, lovel, hivel, bright } of layers) {
    for (const take of [1, 2]) {
      lines.push(header('group', { lovel, hivel, seq_length: 2, seq_position: take }));
      for (const stretch of stretches(lowest, highest, 6)) {
        const name = `pizz-${mark}-${threeDigits(stretch.centre)}-rr${String(take)}.wav`;
        samples.push(pitchedFile(name, stretch.centre, { ...plucked, bright }, single));
        lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
      }
    }
  }
  return { lines, samples };
};
