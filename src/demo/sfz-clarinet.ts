import { pitchedFile, type Format, type SampleFile, type SfzFiles } from './sfz-sounds.ts';
import {
  header,
  keysOfStretch,
  sfzText,
  stretches,
  threeDigits,
  type Stretch,
} from './sfz-text.ts';
import type { Tone } from './tones.ts';

const [lowest, highest] = [50, 85];

const blown: Omit<Tone, 'bright'> = {
  ...{ seconds: 0.6, looped: true, even: 0.15, rise: 0.03, strike: 0.1, noise: 0.12 },
};
const short = { ...blown, looped: false, strike: 0.5, noise: 0.4 };
const tongue = { ...short, seconds: 0.12, rise: 0.002 };
const slide = { ...short, seconds: 0.25, noise: 0.15 };
const keyNoise = { ...short, seconds: 0.08, rise: 0.001, noise: 0.9 };

const fine: Format = { channels: 1, bits: 24 };
const plain: Format = { channels: 1, bits: 16 };

/** Steps between two notes that were recorded as one movement; wider ones simply follow. */
const steps = [-4, -3, -2, -1, 1, 2, 3, 4];

/**
 * A solo clarinet: a tongue stroke for the first note of a phrase, a transition for each pair of
 * notes that are joined, and a note that ends the one before it.
 */
export const clarinet = (): SfzFiles => {
  const samples: SampleFile[] = [];
  const lines = [
    '// Saltmere clarinet: invented for the keepset demo, every sample computed by rule.',
    header('control', { default_path: 'samples/clarinet/' }),
    header('global', { ampeg_release: 0.15 }),
    '',
    '// One voice at a time: each note stops the one before. Controller 1 fades two dynamics.',
  ];
  const add = (name: string, { centre }: Stretch, tone: Tone, format: Format): string => {
    samples.push(pitchedFile(name, centre, tone, format));
    return name;
  };
  const dynamics = [
    { mark: 'p', bright: 0.1, fades: { xfout_locc1: 60, xfout_hicc1: 80 } },
    { mark: 'f', bright: 0.5, fades: { xfin_locc1: 60, xfin_hicc1: 80 } },
  ];
  for (const { mark, bright, fades } of dynamics) {
    const alone = { group: 1, off_by: 1, off_mode: 'normal', loop_mode: 'loop_continuous' };
    lines.push(header('group', { ...alone, ...fades }));
    for (const stretch of stretches(lowest, highest, 3)) {
      const name = `tone-${mark}-${threeDigits(stretch.centre)}.wav`;
      add(name, stretch, { ...blown, bright }, fine);
      lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
    }
  }
  lines.push('', '// The tongue, where no other note is held.');
  lines.push(header('group', { trigger: 'first' }));
  for (const stretch of stretches(lowest, highest, 3)) {
    const name = add(
      `tongue-${threeDigits(stretch.centre)}.wav`,
      stretch,
      { ...tongue, bright: 0.6 },
      plain,
    );
    lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
  }
  lines.push('', '// From one held note to the next, pair by pair; neighbours share a recording.');
  lines.push(header('group', { trigger: 'legato' }));
  for (const interval of steps) {
    const movement = `${interval < 0 ? 'down' : 'up'}${String(Math.abs(interval))}`;
    for (const stretch of stretches(lowest, highest, 6)) {
      const name = `${movement}-${threeDigits(stretch.centre)}.wav`;
      add(name, stretch, { ...slide, bright: 0.3 }, plain);
      for (let key = stretch.lo; key <= stretch.hi; key++) {
        const from = key - interval;
        if (from < lowest || from > highest) continue;
        const pair = { key, sw_previous: from, pitch_keycenter: stretch.centre };
        lines.push(header('region', { sample: name, ...pair }));
      }
    }
  }
  lines.push(
    '',
    '// The keys of the instrument, when a finger leaves one; a pedal holds no finger.',
  );
  lines.push(header('group', { trigger: 'release_key' }));
  for (const stretch of stretches(lowest, highest, 12)) {
    const name = `key-${threeDigits(stretch.centre)}.wav`;
    add(name, stretch, { ...keyNoise, bright: 0.9 }, plain);
    lines.push(header('region', { sample: name, ...keysOfStretch(stretch) }));
  }
  return { texts: [{ path: 'clarinet.sfz', text: sfzText(lines) }], samples };
};
