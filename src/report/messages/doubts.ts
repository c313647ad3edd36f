import type { DoubtName } from '../../terms/doubt.ts';

/** Each doubt in a few words that complete "the files do not tell ..." (design, section 6). */
export const doubtWords: Readonly<Record<DoubtName, string>> = {
  'start-state': 'what was set before a cue begins',
  'no-switch': 'which articulation was meant',
  order: 'the order of events at one moment',
  slack: 'track delays, which are not exported',
  smoothing: 'how fast players follow a controller',
  tail: 'if layers that enter late are heard',
  'pedal-held': 'when a pedal left down comes up',
  engine: 'how your player reads the instrument',
  stretch: 'which sample a stretched key takes',
  damage: 'what the unreadable parts play',
};
