import type { Hit } from './hits.ts';
import {
  pitchedFile,
  struckFile,
  type Format,
  type SampleFile,
  type SfzFiles,
} from './sfz-sounds.ts';
import { header, keysOfStretch, sfzText, stretches, threeDigits } from './sfz-text.ts';
import type { Tone } from './tones.ts';

const [lowest, highest] = [33, 95];

const struck: Omit<Tone, 'bright'> = {
  ...{ seconds: 1.1, looped: false, even: 0.8, rise: 0.002, strike: 0.5, noise: 0.2 },
};
const damper = { ...struck, seconds: 0.3, rise: 0.01, strike: 0.1, noise: 0.5 };
const ringing = { ...struck, seconds: 0.9, rise: 0.2, strike: 0, noise: 0.05 };

const wood: Hit = { seconds: 0.25, from: 95, to: 60, body: 0.7, noise: 0.6, thin: 0, metal: 0 };

const wide: Format = { channels: 2, bits: 16 };
const plain: Format = { channels: 1, bits: 16 };

/**
 * The piano of the inn: dampers that fall when a key and the pedal let go of a note, strings that
 * ring along while the pedal is down, and the noise of the pedals, which no key starts.
 */
export const upright = (): SfzFiles => {
  const samples: SampleFile[] = [];
  const lines = [
    '// Saltmere upright: invented for the keepset demo, every sample computed by rule.',
    header('control', { default_path: 'samples/upright/' }),
    '',
  ];
  const pitched = (
    stem: string,
    step: number,
    tone: Tone,
    format: Format,
    last: number = highest,
  ): void => {
    for (const stretch of stretches(lowest, last, step)) {
      const name = `${stem}-${threeDigits(stretch.centre)}.wav`;
      samples.push(pitchedFile(name, stretch.centre, tone, format));
      lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
    }
  };
  lines.push(header('group', { lovel: 1, hivel: 76, ampeg_release: 0.4 }));
  pitched('soft', 7, { ...struck, bright: 0.2 }, wide);
  lines.push(header('group', { lovel: 77, hivel: 127, ampeg_release: 0.4 }));
  pitched('hard', 7, { ...struck, bright: 0.6 }, wide);
  lines.push(
    '',
    '// Dampers fall when neither key nor pedal holds a note; the highest strings have none.',
  );
  lines.push(header('group', { trigger: 'release', rt_decay: 4 }));
  pitched('damper', 12, { ...damper, bright: 0.2 }, plain, 92);
  lines.push('', '// Other strings ring along while the pedal is down.');
  lines.push(header('group', { locc64: 64, hicc64: 127, ampeg_release: 0.8 }));
  pitched('ring', 21, { ...ringing, bright: 0.1 }, wide);
  lines.push('', '// Pedals: started by their controllers, by no key.');
  lines.push(header('group', { hikey: -1, loop_mode: 'one_shot' }));
  const noises = [
    ['pedal-down', { on_locc64: 64, on_hicc64: 127 }],
    ['pedal-up', { on_locc64: 0, on_hicc64: 63 }],
    // No cue has the soft pedal.
    ['soft-pedal-down', { on_locc67: 64, on_hicc67: 127 }],
  ] as const;
  for (const [stem, values] of noises) {
    samples.push(struckFile(`${stem}.wav`, wood, 0.4));
    lines.push(header('region', { sample: `${stem}.wav`, ...values }));
  }
  return { texts: [{ path: 'upright.sfz', text: sfzText(lines) }], samples };
};
