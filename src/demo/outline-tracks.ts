import { pad, pulse } from './chords.ts';
import { melody } from './lines.ts';
import { bassoonSwitches, celloSwitches } from './outline-switches.ts';
import { opened } from './parts.ts';
import { barsOf, type Bar, type Sketch } from './sketch.ts';
import type { TrackDraft } from './track-draft.ts';

/** Tracks that play the outlined libraries. */

/** Presses a keyswitch well ahead of the first of some bars. */
const press = (track: TrackDraft, bars: readonly Bar[], key: number): void => {
  track.note(bars[0]!.tick - 60, 40, key, 64);
};

/** Joined notes alone in the dark: each runs into the next, so each comes by a transition. */
export const celloInLampRoom = (cue: string, plan: Sketch): TrackDraft => {
  const lamp = barsOf(plan, 1);
  const track = opened(cue, 'cello');
  press(track, lamp, celloSwitches.legato);
  melody(track, plan, lamp, { span: [45, 67], overlap: 26, above: 2 });
  return track;
};

/** A joined tune, bounced notes that get louder, and long ones at the end. */
export const celloAtSlackWater = (cue: string, plan: Sketch): TrackDraft => {
  const [pier, tide, way] = [barsOf(plan, 0), barsOf(plan, 1), barsOf(plan, 2)];
  const track = opened(cue, 'cello');
  press(track, pier, celloSwitches.legato);
  melody(track, plan, pier, { span: [43, 62], overlap: 22, above: -4 });
  press(track, tide, celloSwitches.spiccato);
  const bounced = { span: [43, 64], perBeat: 2, voices: 1, sounding: 0.4 } as const;
  pulse(track, plan, tide.slice(0, 4), { ...bounced, above: -26 });
  pulse(track, plan, tide.slice(4), { ...bounced, above: -4 });
  press(track, way, celloSwitches.sustain);
  pad(track, plan, way, { span: [43, 60], voices: 1, above: -6 });
  return track;
};

/** Short notes between the beats. */
export const bassoonAtLoft = (cue: string, plan: Sketch): TrackDraft => {
  const mending = barsOf(plan, 0);
  const track = opened(cue, 'bassoon');
  press(track, mending, bassoonSwitches.staccato);
  pulse(track, plan, mending, {
    ...{ span: [40, 62], perBeat: 2, voices: 1, sounding: 0.5, above: -4, offBeatsOnly: true },
  });
  return track;
};

/** A slow tune below the oboe's. */
export const bassoonInFog = (cue: string, plan: Sketch): TrackDraft => {
  const buoy = barsOf(plan, 0);
  const track = opened(cue, 'bassoon');
  press(track, buoy, bassoonSwitches.sustain);
  melody(track, plan, buoy, { span: [45, 60], overlap: -20, above: -2 });
  return track;
};
