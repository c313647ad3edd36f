import { rm } from 'node:fs/promises';
import { readBank, type OracleBank } from '../oracle/soundfont-bank.ts';
import { plain } from '../oracle/doubts.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { reachOf } from './cue-reach.ts';
import type { Renders, Synth } from './renders.ts';
import { heardBeyondSoundOff, samplesOf, whyItStays, type ReachedSamples } from './sample-reach.ts';
import { silenceOne } from './silence.ts';

/** What came of silencing one kept sample. */
export type Trial =
  /** Another file: by FluidSynth, by TiMidity++ alone, or by FluidSynth twenty times louder. */
  | 'fluidsynth'
  | 'timidity'
  | 'louder'
  /** No other file, and by the naive player there need be none: only doubts reach it. */
  | 'doubt'
  /** It is the other half of a stereo pair that is reached. */
  | 'linked'
  /** All sound off (controller 120) stands in the tick of every note that plays it. */
  | 'sound-off'
  /** Other kept samples cover all its points, or they were zeros before: nothing was silenced. */
  | 'shared'
  | 'was-silent'
  /** Played, but no synthesiser lets it be heard. */
  | 'unheard'
  /** Nothing plays it and nothing explains why it stays. */
  | 'unneeded';

export const heardBy: readonly Trial[] = ['fluidsynth', 'timidity', 'louder'];
export const unexplained: readonly Trial[] = ['unheard', 'unneeded'];

/** A cue and what it reaches in a bank by the naive player. */
export interface PlayedCue {
  readonly cue: string;
  readonly events: readonly OracleEvent[];
  readonly reached: ReachedSamples;
}

/** A bank and the cues that it was trimmed for. */
export interface TrialBank {
  readonly file: string;
  readonly bank: OracleBank;
  readonly cues: readonly PlayedCue[];
}

/** Plays the cues of a reel on a bank with the naive player. */
export const trialBank = (
  file: string,
  bytes: Uint8Array,
  reel: readonly { readonly cue: string; readonly events: readonly OracleEvent[] }[],
): TrialBank => {
  const bank = readBank(bytes);
  const all = reel.map(({ events }) => events);
  const cues = reel.map(({ cue, events }) => ({
    ...{ cue, events },
    reached: samplesOf(bank, reachOf(bank, events, all)),
  }));
  return { file, bank, cues };
};

/** Whether some cue plays a sample by the plain reading. */
export const isPlayed = ({ bank, cues }: TrialBank, sample: number): boolean =>
  cues.some(({ reached }) => whyItStays(bank, reached, sample) === 'played');

const synths: readonly (readonly [Trial, Synth])[] = [
  ['fluidsynth', { name: 'fluidsynth' }],
  ['timidity', { name: 'timidity' }],
  ['louder', { name: 'fluidsynth', gain: 10 }],
];

/** Cues that play it by the letter first: one is enough to hear it. */
const likeliest = ({ bank, cues }: TrialBank, sample: number): readonly PlayedCue[] => {
  const order = ['played', 'doubt', 'linked', null];
  const place = ({ reached }: PlayedCue): number =>
    order.indexOf(whyItStays(bank, reached, sample));
  return [...cues].sort((a, b) => place(a) - place(b));
};

const heard = async (
  renders: Renders,
  trial: TrialBank,
  sample: number,
  silent: string,
): Promise<Trial | null> => {
  // Every cue with one synthesiser before the next: the first hears nearly all.
  for (const [result, synth] of synths) {
    for (const { cue } of likeliest(trial, sample)) {
      if (!(await renders.same(synth, trial.file, silent, cue))) return result;
    }
  }
  return null;
};

const whyUnheard = ({ bank, cues }: TrialBank, sample: number): Trial => {
  const why = cues.map(({ reached }) => whyItStays(bank, reached, sample));
  if (!why.includes('played')) {
    if (why.includes('doubt')) return 'doubt';
    return why.includes('linked') ? 'linked' : 'unneeded';
  }
  const beyond = cues.some(
    ({ events }) => heardBeyondSoundOff(bank, events).get(sample)?.includes(plain) === true,
  );
  return beyond ? 'unheard' : 'sound-off';
};

/** Silences a kept sample and listens. The bank must not change during the run. */
export const silencedTrial = async (
  renders: Renders,
  trial: TrialBank,
  sample: number,
): Promise<Trial> => {
  const silent = renders.file('sf2');
  try {
    const { words, changed } = await silenceOne(trial.file, silent, sample);
    if (words === 0) return 'shared';
    if (changed === 0) return 'was-silent';
    return (await heard(renders, trial, sample, silent)) ?? whyUnheard(trial, sample);
  } finally {
    await rm(silent, { force: true });
  }
};
