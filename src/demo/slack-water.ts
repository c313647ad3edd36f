import { arpeggio, pad, sparkle } from './chords.ts';
import type { Cue } from './cue-file.ts';
import { bassLine, melody } from './lines.ts';
import { celloAtSlackWater } from './outline-tracks.ts';
import { bare, opened } from './parts.ts';
import { chamberAtSlackWater, deckAtSlackWater } from './sfz-tracks.ts';
import { barsOf, sketch, type Bar, type Sketch } from './sketch.ts';
import type { TrackDraft } from './track-draft.ts';

/** The fiddle's keyswitches, far below its range: no sound lies there. */
const fiddleSwitches = { legato: 24, pizzicato: 25, tremolo: 26 } as const;

/** The horns' program changes, from 0. */
const hornPrograms = { sustain: 60, staccato: 61, stopped: 62 } as const;

/**
 * The tide turns: the cue for whoever keeps the template. A fiddle with keyswitches, horns whose
 * program changes stand in a track of their own, a flute that never says which articulation, and a
 * pad that is audio already.
 */
export const slackWater = (): Cue => {
  const title = '2m4 Slack Water';
  const plan = sketch(7, false, [
    { name: 'Stone pier', bars: 8, meter: [4, 4], tempo: 76, chords: [0, 5, 3, 4], loud: 58 },
    { name: 'The tide turns', bars: 8, meter: [3, 4], tempo: 92, chords: [0, 2, 3, 4], loud: 70 },
    {
      ...{ name: 'Under way', bars: 5, meter: [4, 4], tempo: 84, slowsTo: 56 },
      ...{ chords: [3, 4, 5, 4, 0], loud: 80 },
    },
  ]);
  const [pier, tide, way] = [barsOf(plan, 0), barsOf(plan, 1), barsOf(plan, 2)];
  const altoFlute = opened(title, 'altoFlute');
  melody(altoFlute, plan, tide, { span: [60, 74], overlap: 20, above: -6 });
  const [horns, switches] = hornsAndSwitches(title, plan, tide, way);
  const brass = bare(title, 'lowBrass');
  brass.program(0, 60);
  brass.controller(0, 7, 96);
  brass.controller(0, 11, 84);
  bassLine(brass, plan, way, [46, 60]);
  const low = opened(title, 'low');
  pad(low, plan, plan.bars, { span: [41, 58], voices: 2, above: -8 });
  const harp = opened(title, 'harp');
  arpeggio(harp, plan, tide, { span: [48, 77], perBeat: 2, above: -14, pedal: true });
  const celesta = opened(title, 'celesta');
  sparkle(celesta, plan, pier, [77, 96]);
  const bass = opened(title, 'bass');
  bassLine(bass, plan, [...tide, ...way], [33, 47]);
  const print = opened(title, 'print');
  pad(print, plan, pier, { span: [57, 74], voices: 3, above: -10 });
  const tracks = [
    ...[fiddle(title, plan, pier, tide, way), altoFlute, horns, switches, brass],
    ...[low, harp, celesta, bass, print, chamberAtSlackWater(title, plan)],
    ...[deckAtSlackWater(title, plan), celloAtSlackWater(title, plan), opened(title, 'click')],
  ];
  return { title, plan, tracks, endings: 'note-off' };
};

/**
 * A pick-up before any switch, then three switches: one before the note of its tick, one after it, as
 * exporters sort at will, and one well ahead of its note.
 */
const fiddle = (
  cue: string,
  plan: Sketch,
  pier: readonly Bar[],
  tide: readonly Bar[],
  way: readonly Bar[],
): TrackDraft => {
  const track = opened(cue, 'fiddle');
  const press = (tick: number, key: number): void => {
    track.note(tick, 60, key, 64);
  };
  track.note(pier[0]!.tick - 240, 220, 74, 60);
  press(pier[0]!.tick, fiddleSwitches.legato);
  melody(track, plan, pier, { span: [67, 86], overlap: 24, above: 4 });
  melody(track, plan, tide, { span: [62, 81], overlap: 0 });
  press(tide[0]!.tick, fiddleSwitches.pizzicato);
  press(way[0]!.tick - 40, fiddleSwitches.tremolo);
  melody(track, plan, way, { span: [69, 88], overlap: 20, above: 8 });
  return track;
};

/** Staccato while the tide turns, stopped for its last bar, held notes at the end. */
const hornsAndSwitches = (
  cue: string,
  plan: Sketch,
  tide: readonly Bar[],
  way: readonly Bar[],
): readonly [horns: TrackDraft, switches: TrackDraft] => {
  const horns = opened(cue, 'horns');
  melody(horns, plan, [...tide, ...way], { span: [50, 65], overlap: 16 });
  const switches = bare(cue, 'hornSwitches');
  switches.program(tide[0]!.tick - 20, hornPrograms.staccato);
  switches.program(tide.at(-1)!.tick, hornPrograms.stopped);
  switches.program(way[0]!.tick - 20, hornPrograms.sustain);
  return [horns, switches];
};
