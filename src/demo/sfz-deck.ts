import type { Hit } from './hits.ts';
import { struckFile, type SampleFile, type SfzFiles } from './sfz-sounds.ts';
import { header, sfzText, type Opcodes } from './sfz-text.ts';

/** Keys of the deck, on the General MIDI percussion keys of what they are nearest to. */
export const deckKeys = {
  ...{ barrel: 36, plank: 38, shaker: 42, hand: 44, chain: 46, anchor: 49, bell: 56 },
} as const;

const barrel: Hit = { seconds: 0.6, from: 120, to: 62, body: 1, noise: 0.25, thin: 0, metal: 0 };
const plank: Hit = { ...barrel, seconds: 0.3, from: 260, to: 210, noise: 0.8, thin: 0.4 };
const shaker: Hit = { ...barrel, seconds: 0.2, from: 3000, to: 3000, body: 0, noise: 1, thin: 0.9 };
const chain: Hit = { ...shaker, seconds: 1.2, metal: 0.6 };
const anchor: Hit = { ...chain, seconds: 2, from: 410, noise: 0.2, thin: 0.3, metal: 1 };
const bell: Hit = { ...anchor, seconds: 1.6, from: 640, noise: 0.05 };

/**
 * Things that sound on a deck: takes in turn and by chance, velocity layers, a hand that stops the
 * chain without a sound of its own, and an anchor that nobody drops. The chain is FLAC, the bell AIFF.
 */
export const deckDrums = (): SfzFiles => {
  const samples: SampleFile[] = [];
  const lines = [
    '// Saltmere deck: invented for the keepset demo, every sample computed by rule.',
    header('control', { default_path: 'samples/deck/' }),
    // Struck things ring on whatever the key does.
    header('global', { loop_mode: 'one_shot' }),
  ];
  const group = (about: string, opcodes: Opcodes): void => {
    lines.push('', `// ${about}`, header('group', opcodes));
  };
  const region = (name: string, hit: Hit, force: number, opcodes: Opcodes): void => {
    samples.push(struckFile(name, hit, force));
    lines.push(header('region', { sample: name, ...opcodes }));
  };

  group('Barrel: two strengths, three takes in turn.', { key: deckKeys.barrel, seq_length: 3 });
  for (const [mark, lovel, hivel] of strengths) {
    for (const take of [1, 2, 3]) {
      const name = `barrel ${mark} ${String(take)}.wav`;
      region(name, barrel, hivel / 127, { lovel, hivel, seq_position: take });
    }
  }
  group('Plank: two strengths, two takes by chance.', { key: deckKeys.plank });
  for (const [mark, lovel, hivel] of strengths) {
    for (const take of [1, 2]) {
      const chance = { lorand: (take - 1) / 2, hirand: take / 2 };
      const name = `plank ${mark} ${String(take)}.wav`;
      region(name, plank, hivel / 127, { lovel, hivel, ...chance });
    }
  }
  group('Shaker: four takes in turn.', { key: deckKeys.shaker, seq_length: 4 });
  for (const take of [1, 2, 3, 4]) {
    region(`shaker ${String(take)}.wav`, shaker, 0.5, { seq_position: take });
  }
  group('Chain: rattles on until the hand takes it.', {
    ...{ key: deckKeys.chain, seq_length: 2, off_by: 4 },
  });
  for (const take of [1, 2]) {
    region(`chain ${String(take)}.flac`, chain, 0.5, { seq_position: take });
  }
  group('The hand: no sound, but without it the chain would not stop.', { group: 4 });
  lines.push(header('region', { sample: '*silence', key: deckKeys.hand, end: -1 }));
  group('Bell: two strengths.', { key: deckKeys.bell });
  for (const [mark, lovel, hivel] of strengths) {
    region(`bell ${mark}.aif`, bell, hivel / 127, { lovel, hivel });
  }
  group('Anchor: two strengths.', { key: deckKeys.anchor });
  for (const [mark, lovel, hivel] of strengths) {
    region(`anchor ${mark}.wav`, anchor, hivel / 127, { lovel, hivel });
  }
  return { texts: [{ path: 'deck.sfz', text: sfzText(lines) }], samples };
};

const strengths: readonly (readonly [mark: string, lovel: number, hivel: number])[] = [
  ['soft', 1, 80],
  ['hard', 81, 127],
];
