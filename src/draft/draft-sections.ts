import { printable } from '../terms/printable.ts';
import type { PlayedCue } from './collect-tracks.ts';
import { comment } from './comment.ts';
import { count } from './describe-group.ts';
import { quoted } from './yaml-text.ts';

/** Cues that are named in the head. */
const mostNamed = 12;

const named = (ids: readonly string[]): string =>
  `${ids.slice(0, mostNamed).map(printable).join(', ')}${ids.length > mostNamed ? ' …' : ''}`;

const idsOf = (cues: readonly PlayedCue[]): readonly string[] => [
  ...new Set(cues.map(({ id }) => id)),
];

const notRead = (cues: readonly PlayedCue[]): readonly string[] => {
  const damaged = idsOf(cues.filter(({ state }) => state !== 'read'));
  return damaged.length === 0
    ? []
    : [
        '#',
        ...comment(
          `NOT COMPLETE: of ${named(damaged)} not everything could be read, and tracks may be missing below.`,
        ),
        '# Export the cues again, then add what is new: keepset draft CUES -o THIS-FILE --update',
      ];
};

/** What the file is and what to do with it. */
export const head = (cues: readonly PlayedCue[]): readonly string[] => [
  ...comment(
    `A first draft of a keepset template, from the tracks of ${count(idsOf(cues).length, 'cue')}. Everything below was guessed from the names of the tracks: look it through.`,
  ),
  '#',
  '#   1. instruments: fill in the files; split or put together what the names did not tell.',
  '#   2. routes: check that each track goes to its instrument, and the click to none.',
  '#   3. machines, players: how much memory there is, and how your player loads and unloads.',
  '#   4. keepset plan CUES then says what must stay loaded. It names tracks without a rule.',
  '#',
  '# Later cues: keepset draft CUES -o THIS-FILE --update adds their new tracks at the end.',
  '#',
  '# Keep your full template safe, whatever is unloaded: the mixer may ask for a fix tomorrow.',
  ...notRead(cues),
];

/** Where the cues are. Paths of a template have no backslash, so that they mean the same everywhere. */
export const cuesSection = (patterns: readonly string[]): readonly string[] => {
  const usable = patterns.filter((pattern) => !pattern.includes('\\'));
  return usable.length === 0
    ? ['# Where the cues are, as you call them: cues: "cues/**/*.mid"']
    : [
        "# Where the cues are: files, folders or patterns, from this file's folder.",
        'cues:',
        ...usable.map((pattern) => `  - ${quoted(pattern)}`),
      ];
};

export const middleC: readonly string[] = [
  '# The name of key 60 in this file. Programs disagree, so the comments give the numbers too.',
  'middle-c: C4',
];

/** The computers and the player: what holds without a template, to be replaced by the real ones. */
export const rigSection: readonly string[] = [
  '# The computers. Without one no budget is checked. Take away the # and fill in what yours have;',
  '# with several, each instrument says which: { file: ..., machine: main }',
  '# machines:',
  '#   main: { memory: 64 GiB, reserve: 12 GiB }  # fill in',
  '',
  '# How the instruments are played. This is the plainest player: it loads samples whole, as they',
  '# are, once for a computer, and can unload each by itself. Most players stream instead (loads:',
  '# streamed, head: 60 KiB) and can only unload more at once (unloads: layer, articulation,',
  '# microphone or instrument): write what yours does, or the memory will be wrong.',
  'players:',
  '  sampler: { loads: whole, width: source, shares: machine, unloads: sample }  # fill in',
];
