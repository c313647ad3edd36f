import { arpeggio, pad, pulse } from './chords.ts';
import { melody } from './lines.ts';
import { bare, opened } from './parts.ts';
import { groove } from './percussion.ts';
import { chamberSwitches } from './sfz-chamber.ts';
import { deckKeys } from './sfz-deck.ts';
import { barsOf, type Sketch } from './sketch.ts';
import type { TrackDraft } from './track-draft.ts';

/** Tracks that play the SFZ instruments: what a file can't tell about them stands beside each. */

const wheel = 1;
const sustainPedal = 64;

const press = (track: TrackDraft, tick: number, key: number): void => {
  track.note(tick, 40, key, 64);
};

/** Sustained, tremolo, plucked: all of the switches in one cue, each set before it is needed but one. */
export const chamberAtHarbour = (cue: string, plan: Sketch): TrackDraft => {
  const [breakwater, moorings, inn] = [barsOf(plan, 0), barsOf(plan, 1), barsOf(plan, 2)];
  const track = opened(cue, 'chamber');
  press(track, breakwater[0]!.tick - 60, chamberSwitches.sustain);
  pad(track, plan, breakwater, { span: [53, 72], voices: 3, above: -4 });
  pad(track, plan, moorings, { span: [55, 74], voices: 2, above: -6 });
  // order: this switch stands on the tick of its notes, behind them. As the file has it, the two high
  // ones, which are played nowhere else, are still sustained; tremolo was surely meant.
  const turn = moorings[0]!.tick;
  for (const key of [79, 83]) track.note(turn, 460, key, 70);
  press(track, turn, chamberSwitches.tremolo);
  press(track, inn[0]!.tick - 40, chamberSwitches.pizzicato);
  pulse(track, plan, inn, { span: [50, 71], perBeat: 1, voices: 2, sounding: 0.5, above: -2 });
  return track;
};

/** The low strings at the end of the reel, one long note a bar. */
export const chamberInFog = (cue: string, plan: Sketch): TrackDraft => {
  const home = barsOf(plan, 1);
  // no-switch: this track never presses a keyswitch in any cue. What the instrument starts with is
  // sustained; whether the sequencer switches by itself, no file tells.
  const track = bare(cue, 'chamberLow');
  track.program(0, 48);
  track.controller(0, 7, 96);
  const long = (bar: number, key: number): void => {
    const { tick, length, loud } = home[bar]!;
    track.note(tick, length - 60, key, loud + track.dice.whole(-5, 5));
  };
  // start-state: the wheel has not been moved when these begin. The instrument sets it to its middle;
  // a session may have left it at the bottom, which is another layer.
  for (const [bar, key] of [50, 52, 49].entries()) long(bar, key);
  // smoothing: a jump from the middle to the top just before a note. A player that follows slowly
  // still passes through the middle dynamic when the note begins.
  track.controller(home[3]!.tick - 30, wheel, 110);
  long(3, 47);
  // From here on the wheel has arrived: it only trembles at the top.
  track.controller(home[4]!.tick - 40, wheel, 106);
  track.controller(home[4]!.tick - 20, wheel, 108);
  for (const [step, key] of [57, 54, 59].entries()) long(4 + step, key);
  // tail: the wheel comes down only after the last note is let go, within its release.
  long(7, 42);
  const last = home[7]!;
  const off = last.tick + last.length - 60;
  track.glide(wheel, off + 20, off + 260, 104, 16);
  return track;
};

/** A last chord of harmonics, which an older version of the instrument had. */
export const chamberAtSlackWater = (cue: string, plan: Sketch): TrackDraft => {
  const [pier, way] = [barsOf(plan, 0), barsOf(plan, 2)];
  const track = opened(cue, 'chamber');
  press(track, pier[0]!.tick - 60, chamberSwitches.sustain);
  pad(track, plan, pier, { span: [54, 72], voices: 3, above: -6 });
  // engine: no region names this key, though it lies where switches are watched. By the letter the
  // sustain ends with it and nothing sounds; engines go on with the sustain.
  press(track, way[0]!.tick - 40, chamberSwitches.none);
  pad(track, plan, way, { span: [58, 76], voices: 3, above: -4 });
  return track;
};

/** Detached notes: no transition. engine: some engines play transitions whether a key is held or not. */
export const clarinetAtLoft = (cue: string, plan: Sketch): TrackDraft => {
  const track = opened(cue, 'clarinet');
  melody(track, plan, barsOf(plan, 1), { span: [60, 79], overlap: -30, above: -10 });
  return track;
};

/** Joined notes: the transitions between them, in a part of the range. */
export const clarinetAtLowWater = (cue: string, plan: Sketch): TrackDraft => {
  const track = opened(cue, 'clarinet');
  melody(track, plan, barsOf(plan, 0), { span: [60, 76], overlap: 24 });
  return track;
};

/** Soft strokes only, and the hand on the chain. */
export const deckAtLowWater = (cue: string, plan: Sketch): TrackDraft => {
  const track = opened(cue, 'deck');
  groove(track, barsOf(plan, 0), [
    { key: deckKeys.barrel, beats: [0], above: 6 },
    { key: deckKeys.shaker, beats: [1.5, 3.5], above: -6 },
    { key: deckKeys.chain, beats: [2], above: 0, every: 2 },
    { key: deckKeys.hand, beats: [3], above: 0, every: 2 },
  ]);
  return track;
};

/** Hard strokes on the barrel. */
export const deckAtSlackWater = (cue: string, plan: Sketch): TrackDraft => {
  const track = opened(cue, 'deck');
  groove(track, barsOf(plan, 1), [
    { key: deckKeys.barrel, beats: [0], above: 26 },
    { key: deckKeys.plank, beats: [1, 2], above: -12 },
    { key: deckKeys.bell, beats: [0], above: -4, every: 4 },
  ]);
  return track;
};

/** The pedal in every bar: its noises, and strings that ring along. */
export const uprightAtLoft = (cue: string, plan: Sketch): TrackDraft => {
  const track = opened(cue, 'upright');
  const mending = barsOf(plan, 0).slice(0, 4);
  arpeggio(track, plan, mending, { span: [45, 68], perBeat: 1, above: 4, pedal: true });
  return track;
};

/** Without the pedal, but for the two high bars at the end. */
export const uprightAtLowWater = (cue: string, plan: Sketch): TrackDraft => {
  const prints = barsOf(plan, 1);
  const track = opened(cue, 'upright');
  arpeggio(track, plan, prints.slice(0, -2), { span: [48, 72], perBeat: 1 });
  // pedal-held: the pedal stays down when the cue ends, so the dampers of these notes, the highest
  // there are, fall only if someone lifts it. No key comes twice: a key struck again would be another
  // reason for its damper.
  const { tick, beat, loud } = prints.at(-2)!;
  track.controller(tick - 30, sustainPedal, 127);
  for (const [step, key] of [84, 87, 91, 82, 86, 89].entries()) {
    track.note(tick + step * beat, beat - 20, key, loud - 8 + track.dice.whole(-4, 4));
  }
  return track;
};
