import { TrackDraft } from './track-draft.ts';

/** The orchestra: track names, channels (from 0) and programs, the same in every cue. */
const parts = {
  flute: { name: 'Fl 1', channel: 0, program: 73 },
  oboe: { name: 'Ob 1', channel: 1, program: 68 },
  horns: { name: 'Hn a4 sus', channel: 2, program: 60 },
  high: { name: 'Str hi leg', channel: 3, program: 48 },
  low: { name: 'Str lo sus', channel: 4, program: 48 },
  stac: { name: 'Str stac', channel: 5, program: 49 },
  pizz: { name: 'Str pizz', channel: 6, program: 45 },
  harp: { name: 'Harp', channel: 7, program: 46 },
  timpani: { name: 'Timp', channel: 8, program: 47 },
  kit: { name: 'Perc – Kit', channel: 9, program: 0 },
  celesta: { name: 'Cel', channel: 10, program: 8 },
  choir: { name: 'Choir ah', channel: 11, program: 52 },
  piano: { name: 'Pno', channel: 12, program: 0 },
  bass: { name: 'Cb arco', channel: 13, program: 43 },
  sord: { name: 'Str sord', channel: 14, program: 48 },
  click: { name: 'Click', channel: 15, program: 0 },
  // On channels of parts that are silent in their cue.
  fiddle: { name: 'Fiddle', channel: 5, program: 48 },
  altoFlute: { name: 'Alto fl', channel: 0, program: 73 },
  hornSwitches: { name: 'Hn switches', channel: 6, program: 60 },
  lowBrass: { name: 'Low brass', channel: 8, program: 60 },
  print: { name: 'Pad print', channel: 11, program: 52 },
  // These play SFZ instruments; the programs are what the bank has to sketch them with.
  chamber: { name: 'Chamber', channel: 14, program: 48 },
  chamberLow: { name: 'Chamber low', channel: 14, program: 48 },
  clarinet: { name: 'Cl 1', channel: 3, program: 68 },
  deck: { name: 'Deck perc', channel: 9, program: 0 },
  upright: { name: 'Upright', channel: 12, program: 0 },
  // These play outlined libraries.
  cello: { name: 'Solo vc', channel: 1, program: 48 },
  bassoon: { name: 'Bsn 1', channel: 7, program: 48 },
} as const;

export type PartName = keyof typeof parts;

/** How a track opens: where its bank, program and first controller values stand. */
export interface Opening {
  /** 0 when left out: the values at bar 1 that a sequencer chases. */
  readonly tick?: number;
  /** Written as controllers 0 and 32 before the program. */
  readonly bank?: number;
  /** Instead of the part's own program. */
  readonly program?: number;
}

/** A track without any setting: what it plays with is left to the reader. */
export const bare = (cue: string, part: PartName): TrackDraft =>
  new TrackDraft(cue, parts[part].name, parts[part].channel);

/** A track that opens with its bank, program, volume, expression and modulation. */
export const opened = (cue: string, part: PartName, opening: Opening = {}): TrackDraft => {
  const track = bare(cue, part);
  const { tick = 0, bank, program = parts[part].program } = opening;
  if (bank !== undefined) {
    track.controller(tick, 0, bank);
    track.controller(tick, 32, 0);
  }
  track.program(tick, program);
  track.controller(tick, 7, 96);
  track.controller(tick, 11, 100);
  track.controller(tick, 1, 40);
  return track;
};
