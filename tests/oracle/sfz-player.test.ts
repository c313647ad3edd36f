/**
 * Hand-worked tables for the naive SFZ player. A letter is the part of the activation tables that a row
 * comes from (worked from the published documentation, the public-domain test suite and open engines:
 * A keys and velocities, B controllers, C round robins, D keyswitches, E triggers, G gain, H parsing).
 * The others name the rule of the design, or the section of its readings of SFZ, they are worked from.
 */
import { describe, expect, test } from 'vitest';
import { cue, instrument, inWords } from './sfz-shorthand.ts';
import { playSfz } from './sfz-player.ts';

/** Name, instrument, cue, and each region's doubt sets in words. */
type Row = [name: string, opcodes: string, events: string, ...expected: string[]];

const reached = (opcodes: string, ...cues: string[]) =>
  playSfz(instrument(opcodes), cues.map(cue)).regions.map((region) => inWords(region.reached));
const muted = (opcodes: string, events: string) =>
  playSfz(instrument(opcodes), [cue(events)]).regions.map((region) => inWords(region.mutes));

const hold = (rows: Row[]) =>
  test.each(rows)('%s: %s, %s', (_name, opcodes, events, ...expected) => {
    expect(reached(opcodes, events)).toEqual(expected);
  });

describe('keys, velocities, random numbers', () => {
  hold([
    ['A: key', 'key=40', 'on40', 'plain'],
    ['A: another key', 'key=40', 'off40 on41', '-'],
    ['A: no controller plays', 'key=40', 'cc40=127', '-'],
    ['A: below the range', 'lokey=40 hikey=42', 'on39', '-'],
    ['A: lowest', 'lokey=40 hikey=42', 'on40', 'plain'],
    ['A: highest', 'lokey=40 hikey=42', 'on42', 'plain'],
    ['A: above the range', 'lokey=40 hikey=42', 'on43', '-'],
    ['A: softer', 'lovel=60 hivel=70', 'on40/59', '-'],
    ['A: softest', 'lovel=60 hivel=70', 'on40/60', 'plain'],
    ['A: loudest', 'lovel=60 hivel=70', 'on40/70', 'plain'],
    ['A: louder', 'lovel=60 hivel=70', 'on40/71', '-'],
    ['A: layers', '<region> hivel=64 <region> lovel=65', 'on60/64', 'plain', '-'],
    ['A: velocity 0 is a note-off', 'lovel=0', 'on60/0', '-'],
    ['A: empty window', 'lorand=.5 hirand=.5', 'on60', '-'],
    ['A: up to 1 includes 1', 'lorand=1', 'on60', 'plain'],
    ['opcodes a: lowest random out of range', 'lorand=2', 'on60', 'engine'],
    ['opcodes a: highest random out of range', 'hirand=-1', 'on60', 'engine'],
    ['opcodes a: out of range, and a window', 'lorand=.5 hirand=2', 'on60', 'plain'],
    ['opcodes a: the other end keeps it shut', 'lorand=2 hirand=0', 'on60', '-'],
    ['opcodes a: random the wrong way round', 'lorand=.6 hirand=.5', 'on60', '-'],
    ['A: two windows', '<region> hirand=.5 <region> lorand=.5', 'on60', 'plain', 'plain'],
    ['A: keys the wrong way round', 'lokey=70 hikey=60', 'on65', '-'],
    ['A: velocities the wrong way round', 'lovel=70 hivel=60', 'on60/65', '-'],
    ['A: no note', 'hikey=-1', 'on0 on60', '-'],
    ['A: no note by key', 'key=-1', 'on0 on60', '-'],
    ['A: a later limit', 'key=-1 hikey=40', 'on40', 'plain'],
    ['A: out of range', 'hikey=300', 'on60', 'plain'],
    ['readings 1: clamped, or ignored', 'lokey=300', 'on60', 'engine'],
    ['readings 1: clamped to 127', 'lokey=300', 'on127', 'plain'],
    ['A: note name', 'key=d#3', 'on51', 'plain'],
    ['A: another note', 'key=d#3', 'on52', '-'],
    ['A: key overwrites', 'lokey=50 key=60', 'on55', '-'],
    ['A: key is overwritten', 'key=60 lokey=50', 'on55', 'plain'],
    ['A: across levels', '<group> key=60 <region> lokey=50', 'on55', 'plain'],
    ['A: across levels, last', '<group> lokey=50 <region> key=60', 'on55', '-'],
    [
      'H: a new global clears',
      '<group> key=60 <global> lovel=1 <region> hivel=90',
      'on50/9',
      'plain',
    ],
    ['H: junk behind a number', 'key=60x', 'on60', 'plain'],
    ['H: rejected at its place', '<group> key=60 <region> key=x', 'on62', '-'],
    ['H: fractions are cut', 'key=60.7', 'on60', 'plain'],
    ['H: offsets', '<control> note_offset=1 octave_offset=1 <region> key=47', 'on60', 'plain'],
    ['H: no offset on a default', '<control> note_offset=-1 <region> lokey=60', 'on127', 'plain'],
  ]);
});

describe('controllers, bend, pressure, program, tempo, channel', () => {
  const programs = '<region> hiprog=2 <region> loprog=1 hiprog=126 <region> loprog=-1 hiprog=200';
  const channels = '<region> lochan=1 hichan=5 <region> lochan=6 hichan=10';
  hold([
    ['B: below, at first', 'locc4=56 hicc4=59', 'on60', '-'],
    ['B: lowest', 'locc4=56 hicc4=59', 'cc4=56 | on60', 'plain'],
    ['B: highest', 'locc4=56 hicc4=59', 'cc4=59 | on60', 'plain'],
    ['B: the last value', 'locc4=56 hicc4=59', 'cc4=57 | cc4=43 | on60', '-'],
    ['B: both must hold', 'locc4=1 locc54=18', 'cc4=1 | on60', '-'],
    ['B: both hold', 'locc4=1 locc54=18', 'cc4=1 cc54=18 | on60', 'plain'],
    ['B: bend inside', 'lobend=56 hibend=243', 'bend=56 | on60', 'plain'],
    ['B: bend outside', 'lobend=56 hibend=243', 'bend=245 | on60', 'engine'],
    ['B: bend at rest', 'lobend=1 hibend=8192', 'on60', 'engine'],
    ['B: pressure inside', 'lochanaft=56 hichanaft=68', 'at=68 | on60', 'plain'],
    ['B: pressure outside', 'lochanaft=56 hichanaft=68', 'at=98 | on60', '-'],
    ['B: poly pressure', 'lopolyaft=50', 'pat40=80 | on40', 'plain'],
    ['B: of another key', 'lopolyaft=50', 'pat40=80 | on41', 'engine'],
    ['B: at the note-off', 'trigger=release lopolyaft=50', 'on50 | pat50=80 | off50', 'plain'],
    ['B: not at the note-on', 'trigger=release lopolyaft=50', 'on50 | off50', '-'],
    ['B: program 0', programs, 'on60', 'plain', 'no-switch', 'plain'],
    ['B: program 5', programs, 'pc5 | on60', '-', 'plain', 'plain'],
    ['B: program 127', programs, 'pc127 | on60', '-', '-', 'plain'],
    ['readings 9: program before', programs, 'on60 | pc5', 'plain', 'start-state', 'plain'],
    ['B: tempo', 'lobpm=56 hibpm=68', 'bpm=66.7 on60', 'plain'],
    ['B: another tempo', 'lobpm=56 hibpm=68', 'bpm=54.5 on60', 'engine'],
    ['B: tempo has no order', 'lobpm=56 hibpm=68', 'bpm=60 | on60 bpm=130', 'engine'],
    ['B: channels', channels, 'on60@4', 'plain', 'engine'],
    ['B: power-on', '<region> locc7=100 <region> locc11=127', 'on60', 'plain', 'plain'],
    ['B: power-on, or 0', 'hicc7=0', 'on60', 'start-state'],
    ['B: set by the file', '<control> set_cc1=64 <region> locc1=1', 'on60', 'plain'],
    ['B: set, then 0', '<control> set_cc1=64 <region> locc1=1', 'cc1=0 | on60', '-'],
    ['B: set in fractions', '<control> set_hdcc1=.5 <region> locc1=64 hicc1=64', 'on60', 'plain'],
    ['B: between two steps', '<control> set_hdcc1=.5 <region> locc1=63 hicc1=63', 'on60', 'engine'],
    ['B: set in fractions, beyond', '<control> set_hdcc1=.5 <region> locc1=65', 'on60', '-'],
    [
      'B: nearer to the upper',
      '<control> set_hdcc1=.1 <region> locc1=12 hicc1=12',
      'on60',
      'engine',
    ],
    ['B: a whole step', '<control> set_hdcc1=1 <region> locc1=1 hicc1=126', 'on60', '-'],
    [
      'B: the later counts',
      '<control> set_hdcc1=.5 set_cc1=64 <region> locc1=63 hicc1=63',
      'on60',
      '-',
    ],
    [
      'B: between two steps after 121',
      '<control> set_hdcc20=.5 <region> locc20=63 hicc20=63',
      'cc20=9 | cc121=0 | on60',
      'engine',
    ],
    ['B: fractions', 'lohdcc1=.5', 'cc1=64 | on60', 'plain'],
    ['B: fractions, below', 'lohdcc1=.5', 'cc1=63 | on60', '-'],
    ['B: 121', 'locc1=64', 'cc1=100 | cc121=0 | on60', 'engine'],
    ['readings 7: 121 leaves others', 'locc20=64', 'cc20=100 | cc121=0 | on60', 'plain'],
    ['readings 7: 121 for all', 'hicc20=0', 'cc20=100 | cc121=0 | on60', 'engine'],
    ['readings 9: first value left', 'hicc7=0', 'cc121=0 | on60', 'start-state'],
    ['B: 131 and above', 'locc131=64', 'on60', 'plain'],
    ['readings 4: 128', 'locc128=127', 'bend=8191 | on60', 'plain'],
    ['readings 4: 128 ignored', 'locc128=64', 'on60', 'engine'],
  ]);
});

describe('round robins', () => {
  hold([
    ['C: a place', 'seq_length=2 seq_position=2', 'on60', 'plain'],
    ['C: beyond', 'seq_length=2 seq_position=3', 'on60', '-'],
    ['C: length 0', 'seq_length=0 seq_position=1', 'on60', 'plain'],
    ['C: place 0', 'seq_length=2 seq_position=0', 'on60', 'engine'],
    ['readings 2: length 0, place 2', 'seq_length=0 seq_position=2', 'on60', 'engine'],
    ['C: length only', 'seq_length=3', 'on60', 'plain'],
  ]);
});

describe('keyswitches', () => {
  const two =
    '<global> sw_lokey=40 sw_hikey=42 sw_default=40 <region> sw_last=40 key=60 <region> sw_last=41 key=62';
  const bare = '<region> sw_last=40 key=60 <region> sw_last=41 key=62';
  const outside =
    '<global> sw_lokey=40 sw_hikey=42 key=60 <region> sw_last=40 sw_default=40 <region> sw_last=50';
  const apart =
    '<region> key=60 sw_lokey=20 sw_hikey=21 sw_last=20 <region> key=60 sw_lokey=30 sw_hikey=31 sw_last=30';
  const ranges = '<region> sw_lolast=57 sw_hilast=59 key=70 <region> sw_last=62 key=70';
  const mixed =
    '<global> key=60 trigger=release <region> sw_last=0 sw_default=0 <region> sw_last=1';
  hold([
    ['D: the first', two, 'on60 | on62', 'plain', 'no-switch'],
    ['D: sticky', two, 'on41 | off41 | on62', '-', 'plain'],
    ['D: one at a time', two, 'on41 | on60', '-', '-'],
    ['D: before the switch', two, 'on62 | on41', '-', 'start-state'],
    ['D: no range, no default', bare, 'on60', 'no-switch', '-'],
    ['D: no range', bare, 'on40 | on60', 'plain', '-'],
    ['D: default outside', 'sw_last=40 sw_default=49 key=60', 'on60', 'no-switch'],
    [
      'D: the last default',
      '<global> sw_default=40 <region> sw_last=40 key=60 <region> sw_last=41 sw_default=41 key=60',
      'on60',
      ...['no-switch', 'plain'],
    ],
    [
      'D: offset on all',
      '<control> octave_offset=1 note_offset=-1 <region> sw_default=48 sw_last=48 key=36',
      'on47',
      'plain',
    ],
    [
      'D: unshifted',
      '<control> note_offset=12 <region> sw_last=24 key=48',
      'on24 | on60',
      'engine',
    ],
    ['D: shifted', '<control> note_offset=12 <region> sw_last=24 key=48', 'on36 | on60', 'plain'],
    [
      'D: own offset',
      '<control> sw_note_offset=1 <region> sw_last=24 key=60',
      'on25 | on60',
      'plain',
    ],
    ['D: outside the range', outside, 'on50 | on60', 'plain', 'engine'],
    ['D: unnamed in the range', two, 'on42 | on60', 'engine', '-'],
    ['D: two ranges', apart, 'on20 | on30 | on60', 'plain', 'plain'],
    ['D: a switch that plays', 'sw_last=40', 'on40', 'plain'],
    ['D: range of switches', ranges, 'on58 | on70', 'plain', '-'],
    ['D: left again', ranges, 'on58 | on62 | on70', '-', 'plain'],
    [
      'D: range beats key',
      'sw_last=62 sw_lolast=57 sw_hilast=59 key=70',
      'on62 | on70',
      'no-switch',
    ],
    ['D: default in a range', 'sw_lolast=57 sw_hilast=59 sw_default=58 key=70', 'on70', 'plain'],
    ['D: no such key', 'sw_last=200 sw_default=40 key=60', 'on60', 'engine'],
    ['D: no such key, but a range', 'sw_last=200 sw_lolast=40 sw_hilast=41', 'on60', 'no-switch'],
    ['D: a range beyond the keys', 'sw_lolast=99 sw_hilast=200', 'on60', 'engine | no-switch'],
    ['D: no text of a key', 'sw_last=x', 'on60', 'plain'],
    [
      'D: no text of a key below another',
      '<group> sw_last=40 sw_default=41 <region> sw_last=x <region> sw_last=41',
      'on60',
      ...['engine | no-switch', 'plain'],
    ],
    [
      'D: a key again',
      '<group> sw_last=x sw_default=40 <region> sw_last=41 <region> sw_last=40',
      'on40 | on60',
      ...['-', 'plain'],
    ],
    [
      'D: moved beyond the keys',
      '<control> sw_note_offset=-50 <region> sw_last=40 sw_default=60',
      'on60',
      'engine',
    ],
    [
      'D: no offset makes it a key',
      '<control> note_offset=1 <region> sw_previous=-1 key=60',
      'on0 | on61',
      'engine',
    ],
    ['D: down, no such key', 'sw_down=128', 'on60', 'engine'],
    ['D: up, no such key', 'sw_up=-5', 'on60', 'plain'],
    [
      'D: up, no text of a key',
      '<group> sw_up=40 <region> key=60 sw_up=x',
      'on40 | on60',
      'engine',
    ],
    ['D: previous, no such key', 'sw_previous=-1', 'on60', 'engine'],
    ['D: down', 'sw_down=40 key=60', 'on40 | on60', 'plain'],
    ['D: not down', 'sw_down=40 key=60', 'on60', '-'],
    ['D: down no more', 'sw_down=40 key=60', 'on40 | off40 | on60', '-'],
    ['D: down outside', 'sw_lokey=20 sw_hikey=30 sw_down=40 key=60', 'on40 | on60', 'engine'],
    [
      'D: two down',
      '<region> sw_down=48 <region> sw_down=49',
      'on48 | on49 | on60',
      'plain',
      'plain',
    ],
    ['D: up', 'sw_up=40 key=60', 'on60', 'plain'],
    ['D: not up', 'sw_up=40 key=60', 'on40 | on60', '-'],
    ['readings 4: up outside', 'sw_lokey=20 sw_hikey=30 sw_up=40 key=60', 'on40 | on60', 'plain'],
    ['D: previous, first note', 'sw_previous=60 lokey=50 hikey=70', 'on60', '-'],
    ['D: previous', 'sw_previous=60 lokey=50 hikey=70', 'on60 | on51', 'plain'],
    ['D: previous, another', 'sw_previous=60 key=51', 'on60 | on30 | on51', '-'],
    ['D: both switches', 'sw_last=40 sw_down=30 key=60', 'on40 | on60', '-'],
    ['D: both switches on', 'sw_last=40 sw_down=30 key=60', 'on30 | on40 | on60', 'plain'],
    ['D: previous velocity', 'sw_vel=previous lovel=63 key=60', 'on50/127 | on60/10', 'plain'],
    ['D: previous velocity, soft', 'sw_vel=previous lovel=63 key=60', 'on50/10 | on60/127', '-'],
    [
      'D: no previous velocity at the second',
      'sw_vel=previous hivel=50 key=60',
      'on50/60 | on60',
      '-',
    ],
    ['D: a previous velocity that no note has', 'sw_vel=previous hivel=0', 'on60', '-'],
    [
      'D: no previous velocity, and faded',
      'sw_vel=previous hivel=40 xfin_lovel=40 xfin_hivel=50',
      'on60',
      '-',
    ],
    ['D: no previous velocity yet', 'sw_vel=previous key=60', 'on60', 'start-state'],
    ['D: read at the note-off', mixed, 'on60 | on1 | off60', '-', 'plain'],
    [
      'D: held switches do not count',
      '<global> sw_last=20 lokey=60 <region> trigger=first <region> trigger=legato',
      'on20 | on60',
      ...['plain', 'engine'],
    ],
  ]);
});

describe('triggers and pedals', () => {
  const pair = '<global> lokey=40 hikey=50 <region> trigger=first <region> trigger=legato';
  // Controller 20 tells the note-off, where it is 0, from the pedal that goes up later, where it is 1.
  const early = (opcodes: string) => `key=60 trigger=release hicc20=0 ${opcodes}`;
  const late = (opcodes: string) => `key=60 trigger=release locc20=1 ${opcodes}`;
  const pedal = (number: number, value: number) =>
    `on60 | cc${number}=${value} | off60 | cc20=1 | cc${number}=0`;
  hold([
    ['E: first', pair, 'on40', 'plain', 'engine'],
    ['E: legato', pair, 'on40 | on41@2', 'plain', 'plain'],
    ['E: not by pedal', pair, 'cc64=127 | on40 | off40 | on41', 'plain', 'engine'],
    ['E: velocity of the note-on', 'trigger=release lovel=80', 'on60/90 | off60/10', 'plain'],
    ['E: not of the note-off', 'trigger=release lovel=80', 'on60/10 | off60/90', '-'],
    ['E: no note-off', 'trigger=release', 'on60', 'pedal-held'],
    ['E: a note-off alone', 'trigger=release', 'off60', '-'],
    ['E: pedal', early(''), pedal(64, 127), '-'],
    ['E: pedal goes up', late(''), pedal(64, 127), 'plain'],
    ['E: pedal before', late(''), 'cc64=99 | on60 | off60 | cc20=1 | cc64=0', 'plain'],
    ['readings 7: from 1 or from 64', early(''), pedal(64, 1), 'engine'],
    ['E: sustain_lo', early('sustain_lo=63'), pedal(64, 1), 'plain'],
    ['E: sustain_sw', early('sustain_sw=off'), pedal(64, 127), 'plain'],
    ['E: sustain_cc', late('sustain_cc=54'), pedal(54, 127), 'plain'],
    ['E: not the usual pedal', early('sustain_cc=54'), pedal(64, 127), 'plain'],
    ['E: sostenuto', late(''), pedal(66, 127), 'plain'],
    ['E: sostenuto before', late('sustain_sw=off'), 'cc66=9 | on60 | off60 | cc20=1 | cc66=0', '-'],
    [
      'E: the last of both pedals',
      late(''),
      'on60 | cc66=99 cc64=99 | off60 | cc64=0 | cc20=1 | cc66=0',
      'plain',
    ],
    ['E: release_key', 'trigger=release_key hicc20=0', pedal(64, 127), 'plain'],
    ['E: release_key at note-on', 'trigger=release_key hicc20=0', 'on60 | cc20=1', 'engine'],
    ['E: release_key at the end', 'trigger=release_key locc20=1', 'on60 | cc20=1', 'pedal-held'],
    [
      'E: release_key before the end',
      'trigger=release_key locc20=1',
      'cc64=99 | on60 | off60 | cc20=1',
      '-',
    ],
    ['opcodes a: a pedal from before', late(''), 'on60 | off60 | cc20=1 | cc64=0', 'start-state'],
    [
      'opcodes a: a pedal from before, never lifted',
      late(''),
      'on60 | off60 | cc20=1 | cc64=127',
      'pedal-held+start-state',
    ],
    ['opcodes a: a pedal that the cue never touches', late(''), 'on60 | off60 | cc20=1', '-'],
    ['opcodes a: a pedal that is known', late(''), 'cc64=0 | on60 | off60 | cc20=1 | cc64=0', '-'],
    [
      'opcodes a: set too late',
      early(''),
      'cc20=1 | on60 | off60 | cc20=0 | cc64=9',
      'engine+start-state | pedal-held+start-state',
    ],
    ['opcodes a: no pedal from before', late('sustain_sw=off'), 'on60 | off60 | cc20=1', '-'],
    [
      'opcodes a: never deep enough',
      late('sustain_lo=128'),
      'on60 | off60 | cc20=1 | cc64=0',
      'engine+start-state',
    ],
    [
      'opcodes a: a pedal from before, lifted by 121',
      late('sustain_lo=128'),
      'on60 | off60 | cc20=1 | cc121=0 | cc64=0',
      'engine+start-state',
    ],
    [
      'B: a pedal between two steps',
      `<control> set_hdcc64=.5 <region> ${late('sustain_lo=63.5')}`,
      'on60 | off60 | cc20=1 | cc64=0',
      'plain',
    ],
    [
      'B: a pedal between two steps, up',
      `<control> set_hdcc64=.5 <region> ${early('sustain_lo=63.5')}`,
      'on60 | off60 | cc20=1 | cc64=0',
      'engine',
    ],
    [
      'E: all strikes at once',
      late('sustain_sw=off hivel=90'),
      'on60/99 | on60/9 | cc20=1 | off60 | cc20=0 | off60',
      'engine',
    ],
    [
      'E: all strikes at once, release_key',
      'trigger=release_key locc20=1 hivel=90',
      'on60/99 | on60/9 | cc20=1 | off60 | cc20=0 | off60',
      'engine',
    ],
    ['E: struck twice', 'trigger=release hivel=50', 'on60/10 | on60/99 | off60 | off60', 'plain'],
    [
      'E: oldest first',
      late('sustain_sw=off lovel=90'),
      'on60/99 | on60/9 | off60 | cc20=1 | off60',
      '-',
    ],
    ['E: restrike', 'trigger=release hicc20=0', 'on60 | on60 | cc20=1 | off60 | off60', 'engine'],
    [
      'readings 3: cut',
      '<region> trigger=release hicc20=0 <region> key=0 off_by=3',
      'on60 | on62 | cc20=1 | off60 | off62',
      'engine',
      '-',
    ],
    [
      'F: cut by a release',
      '<region> trigger=release key=60 sustain_sw=off locc20=1 <region> key=0 off_by=3',
      'on60 | on62 | cc20=1 | off62 | cc20=0 | off60',
      ...['engine', '-'],
    ],
    [
      'F: cut by a release_key',
      '<region> trigger=release key=60 locc20=1 <region> trigger=release_key key=0 off_by=3',
      'cc64=99 | on60 | on62 | cc20=1 | off62 | off60 | cc20=0 | cc64=0',
      ...['engine', '-'],
    ],
    [
      'F: cut by a release that comes under a doubt',
      '<region> trigger=release key=60 sustain_sw=off locc20=1 <region> trigger=release key=0 off_by=3',
      'on60 | on62 | off62 | cc20=1 | cc64=0 | cc20=0 | off60',
      ...['engine+start-state', '-'],
    ],
    [
      'F: cut by the release_key of its own note',
      '<region> trigger=release key=60 hicc20=0 <region> trigger=release_key key=0 off_by=3',
      'cc64=99 | on60 | off60 | cc20=1 | cc64=0',
      ...['engine', '-'],
    ],
    [
      'F: no release cuts',
      '<region> trigger=release key=60 sustain_sw=off locc20=1',
      'on60 | on62 | cc20=1 | off62 | cc20=0 | off60',
      '-',
    ],
    ['readings 3: no cut', 'trigger=release hicc20=0', 'on60 | on62 | cc20=1 | off60 | off62', '-'],
    ['readings 3: 123', 'trigger=release hicc20=0', 'on60 | cc123=0 | cc20=1', 'plain'],
    ['readings 3: 123 elsewhere', late(''), 'on60@1 | cc123=0@2 | cc20=1', 'pedal-held'],
    ['B: 120', 'trigger=release_key locc20=1', 'on60 | cc20=1 | cc120=0', 'engine'],
    [
      'readings 7: 121 lifts',
      'trigger=release hicc20=0',
      'on60 | cc64=9 | off60 | cc121=0 | cc20=1',
      'plain',
    ],
    [
      'readings 7: 121 does not',
      late(''),
      'on60 | cc64=99 | off60 | cc121=0 | cc20=1 | cc64=0',
      'engine',
    ],
    ['E: a controller', 'on_locc47=64 on_hicc47=68', 'cc47=68', 'plain'],
    ['E: its value outside', 'on_locc47=64 on_hicc47=68', 'cc47=63 | cc47=69', '-'],
    ['E: keys stay on', 'on_locc47=64 key=60', 'on60', 'plain'],
    ['E: keys are off', 'on_locc47=64 hikey=-1', 'on60', '-'],
    ['E: a missing limit', 'hikey=-1 on_locc64=64', 'cc64=100', 'plain'],
    ['E: in fractions', 'hikey=-1 on_lohdcc1=.5', 'cc1=64', 'plain'],
    ['E: pressure', 'hikey=-1 on_locc129=10', 'at=10', 'plain'],
    ['E: poly pressure', 'key=60 on_locc130=10', 'pat60=10', 'plain'],
    ['E: poly pressure elsewhere', 'key=60 on_locc130=10', 'pat61=10', '-'],
    ['E: random', 'hikey=-1 on_locc1=1 hirand=0', 'cc1=5', '-'],
    ['readings 8: own new value', 'hikey=-1 on_locc1=64 hicc1=50', 'cc1=20 cc1=100', '-'],
    ['E: delay', 'delay=.5', 'on60 | off60', 'plain'],
  ]);

  test('E: a repeated value starts again', () => {
    const { starts } = playSfz(instrument('hikey=-1 on_locc1=1'), [cue('cc1=5 | cc1=5')]);
    expect(starts.map(({ event, key }) => [event, key])).toEqual([
      [0, null],
      [1, null],
    ]);
  });
});

describe('order', () => {
  const held = 'trigger=release locc20=1';
  const at = 'trigger=release hicc20=0';
  hold([
    [
      'design 6: note, then switch',
      '<region> sw_last=25 key=60 <region> sw_last=24 key=0',
      'on24 | on60 on25',
      'order',
      '-',
    ],
    ['design 6: several values', 'hicc1=63', 'cc1=80 | cc1=20 cc1=90 on62', 'order'],
    ['readings 9: left by a tick', 'hicc1=63', 'cc1=20 cc1=90 | on62', 'order'],
    ['readings 9: until set again', 'hicc1=63', 'cc1=20 cc1=90 | cc1=91 | on62', '-'],
    ['readings 9: before the tick', 'hicc1=63', 'cc1=20 | cc1=90 on62', 'order'],
    ['readings 9: previous key', 'sw_previous=60 key=62', 'on62 on60', 'order'],
    ['readings 9: not its own', 'sw_previous=60 key=60', 'on62 | on60', '-'],
    ['readings 9: held', 'trigger=first key=62', 'on60 | on62 off60', 'engine | order'],
    ['readings 9: before the first', 'sw_down=40 key=60', 'on40 | off40 on60', 'order'],
    [
      'E: pedal down on the tick of the note-off',
      held,
      'cc64=0 | on60 | off60 cc64=99 | cc20=1 | cc64=0',
      'order',
    ],
    ['E: the same in file order', held, 'on60 | cc64=99 off60 | cc20=1 | cc64=0', 'plain'],
    ['E: the note-off before the pedal', at, 'on60 | cc64=99 off60 | cc20=1 | cc64=0', 'order'],
    [
      'E: pedal changed on the tick',
      at,
      'cc64=99 | on60 | cc64=0 cc64=99 off60 | cc20=1 | cc64=0',
      'order',
    ],
    ['E: pedal up on the tick', held, 'cc64=99 | on60 | off60 cc64=0 | cc20=1', '-'],
    ['E: sostenuto on the tick', held, 'cc64=0 | on60 | off60 cc66=99 | cc20=1 | cc66=0', 'order'],
    [
      'E: held longer on the tick',
      'amplitude_oncc20=9',
      'cc64=0 | on60 | off60 cc64=99 | cc20=1',
      'order+pedal-held',
    ],
    [
      'E: sostenuto before the note, all on one tick',
      held,
      'cc64=0 | cc66=99 on60 off60 | cc20=1 | cc66=0',
      '-',
    ],
    ['same signal', 'locc1=10 hihdcc1=.5', 'cc1=5 | cc1=80 on60', '-'],
  ]);

  test('design 6: the worked example', () => {
    const opcodes =
      '<control> set_cc1=90 <region> key=60 sw_last=25 hicc1=63 <region> lokey=60 hikey=62 hicc1=63 <region> sw_last=24 key=0';
    const events = 'on24 | on60 on25 | cc1=20 cc1=90 on62';
    expect(reached(opcodes, events)).toEqual(['order+start-state', 'order | start-state', '-']);
  });

  test('what the copy chooses in another cue', () => {
    const opcodes =
      '<region> sw_last=24 key=60 <region> sw_last=25 key=60 <region> sw_last=26 key=60';
    expect(reached(opcodes, 'on60', 'on25')).toEqual(['-', 'start-state', '-']);
  });
});

describe('audibility', () => {
  const narrow = 'xfin_locc1=50 xfin_hicc1=51 xfout_locc1=59 xfout_hicc1=60';
  // No pedal from before the cue.
  const dry = `sustain_sw=off ${narrow}`;
  hold([
    ['G: xfin key, silent', 'xfin_lokey=1 xfin_hikey=5', 'on1', '-'],
    ['G: xfin key', 'xfin_lokey=1 xfin_hikey=5', 'on2', 'plain'],
    ['G: xfout key', 'xfout_lokey=51 xfout_hikey=55', 'on54', 'plain'],
    ['G: xfout key, silent', 'xfout_lokey=51 xfout_hikey=55', 'on55', '-'],
    ['G: xfin velocity, silent', 'xfin_lovel=20 xfin_hivel=24', 'on60/20', '-'],
    ['G: xfin velocity', 'xfin_lovel=20 xfin_hivel=24', 'on60/21', 'plain'],
    ['G: xfin, silent', 'xfin_locc24=20 xfin_hicc24=24', 'cc24=20 | on60', '-'],
    ['G: xfin', 'xfin_locc24=20 xfin_hicc24=24', 'cc24=21 | on60', 'plain'],
    ['G: xfin 0/0', 'xfin_locc1=0 xfin_hicc1=0', 'on60', 'plain'],
    ['G: xfin 127/127', 'xfin_locc1=127 xfin_hicc1=127', 'cc1=126 | on60', '-'],
    ['G: xfin 127/127 at 127', 'xfin_locc1=127 xfin_hicc1=127', 'cc1=127 | on60', 'plain'],
    ['G: xfout 0/0', 'xfout_locc1=0 xfout_hicc1=0', 'cc1=9 | cc1=8 | on60', 'engine'],
    ['G: xfout 127/127', 'xfout_locc1=127 xfout_hicc1=127', 'on60', 'plain'],
    ['G: velocity curve', 'amp_velcurve_64=0', 'on60/64', '-'],
    ['G: velocity curve, above', 'amp_velcurve_64=0', 'on60/65', 'plain'],
    ['G: veltrack -100', 'amp_veltrack=-100', 'on60/127', 'engine'],
    ['G: veltrack -100, softer', 'amp_veltrack=-100', 'on60/126', 'plain'],
    ['G: veltrack 50', 'amp_veltrack=50 amp_velcurve_64=0', 'on60/64', 'plain'],
    ['readings 5: amplitude', 'amplitude_oncc1=100', 'on60', '-'],
    ['readings 5: inverted', 'amplitude_oncc1=100 amplitude_curvecc1=2', 'on60', 'plain'],
    [
      'readings 5: own curve',
      '<curve> curve_index=9 v064=0 <region> amplitude_oncc1=100 amplitude_curvecc1=9',
      'cc1=64 | on60',
      '-',
    ],
    ['readings 7: life', narrow, 'on60 | cc1=55 | off60', 'plain'],
    ['readings 7: a jump passes', narrow, 'on60 | cc1=127 | off60', 'plain'],
    ['readings 7: too late', dry, 'on60 | off60 | cc1=55', '-'],
    ['readings 7: tail', `${dry} ampeg_release=.1`, 'on60 | off60 | cc1=55', 'tail'],
    ['readings 7: added tail', `${dry} ampeg_release_oncc9=.1`, 'on60 | off60 | cc1=55', 'tail'],
    ['readings 7: one shot', `${narrow} loop_mode=one_shot`, 'on60 | off60 | cc1=55', 'plain'],
    ['readings 7: pedal', narrow, 'on60 | cc64=99 | off60 | cc1=55 | cc64=0', 'plain'],
    ['readings 7: pedal at 1', narrow, 'on60 | cc64=1 | off60 | cc1=55 | cc64=0', 'plain'],
    [
      'readings 7: pedal below 64',
      `${narrow} sustain_lo=90`,
      'on60 | cc64=80 | off60 | cc1=55 | cc64=0',
      'engine',
    ],
    ['readings 7: release', `${narrow} trigger=release`, 'on60 | off60 | cc1=55', 'plain'],
    [
      'readings 7: release, looped',
      `${dry} trigger=release loop_mode=no_loop`,
      'on60 | off60 | cc1=55',
      'tail',
    ],
    ['readings 7: at the end', `${narrow} trigger=release`, 'on60 | cc1=9 | cc1=55', 'pedal-held'],
    ['readings 8: lives on', `${narrow} hikey=-1 on_locc2=1`, 'cc2=1 | cc1=55', 'plain'],
    ['readings 9: smoothing', narrow, 'cc1=20 | cc1=100 | on60', 'smoothing'],
    ['readings 9: on the tick of the end', dry, 'on60 | off60 cc1=55', 'order | tail'],
    ['readings 9: on the tick of the start', narrow, 'cc1=127 on60', 'order | smoothing'],
    [
      'design 6: no common instant',
      'amplitude_oncc1=9 xfout_locc2=0 xfout_hicc2=60',
      'on60 | cc2=99 | cc1=99',
      '-',
    ],
    [
      'design 6: common under order',
      'amplitude_oncc1=9 xfout_locc2=0 xfout_hicc2=60',
      'on60 | cc2=99 cc1=99',
      'order',
    ],
    ['design 6: a gate and a fade', `${narrow} locc1=60`, 'cc1=55 | on60', '-'],
    [
      'they vary freely: each its own start state',
      `<control> set_cc1=55 <region> ${narrow} hicc1=0`,
      'on60',
      'start-state',
    ],
  ]);
});

describe('silent starts', () => {
  // An attack that is not heard, and a release that one engine plays only where an attack sounds.
  const shield = (silent: string, release: string) =>
    `<region> ${silent} <region> trigger=release ${release}`;
  const shields: Row[] = [
    ['E: before a release', shield('end=-1', ''), 'on60', 'plain', '-'],
    ['E: before a dead release', shield('end=-1', 'rt_dead=on'), 'on60', 'plain', '-'],
    ['E: faded, before a release', shield('amplitude_oncc1=9', ''), 'on60', 'plain', '-'],
    ['E: before a release_key', 'end=-1 <region> trigger=release_key', 'on60', 'plain', '-'],
    ['E: first before a release', shield('end=0 trigger=first', ''), 'on60', 'plain', '-'],
    ['E: other keys', shield('end=-1 hikey=60', 'lokey=61'), 'on60', '-', '-'],
    ['E: a key in common', shield('end=-1 hikey=60', 'lokey=60'), 'on59', 'plain', '-'],
    ['E: other velocities', shield('end=-1 hivel=60', 'lovel=61'), 'on60/9', '-', '-'],
    ['E: no velocity in common', shield('end=-1', 'hivel=0'), 'on60', '-', '-'],
    ['E: a key for an engine', shield('end=-1 key=60', 'lokey=300'), 'on60', 'plain', '-'],
    ['E: by a controller', shield('end=-1 hikey=60 on_locc1=1', ''), 'cc1=9', '-', '-'],
    ['E: a release itself', shield('end=-1 trigger=release', ''), 'on60 | off60', '-', '-'],
    ['E: no release', 'end=-1 <region> key=60', 'on60', '-', '-'],
  ];
  test.each<Row>([
    ['E: end=-1', '<region> end=-1 group=1 <region> off_by=1 key=0', 'on60', 'plain', '-'],
    ['E: end=0', '<region> end=0 group=1 <region> off_by=1 key=0', 'on60', 'plain', '-'],
    ['silence', 'sample=*silence polyphony=1', 'on60', 'plain'],
    ['no sample', 'sample= polyphony=1', 'on60', 'plain'],
    ['nothing to choke', '<region> end=-1 group=1 <region> off_by=2 key=0', 'on60', '-', '-'],
    ['group 0 is no group', '<region> end=-1 <region> off_by=0 key=0', 'on60', '-', '-'],
    ...shields,
    ['never starts', 'sample=*silence polyphony=1 key=60', 'on61', '-'],
    ['heard', 'polyphony=1', 'on60', '-'],
    ['a generator is heard', 'sample=*sine polyphony=1', 'on60', '-'],
    ['not heard by velocity', 'note_polyphony=1 xfin_lovel=20 xfin_hivel=24', 'on60/20', 'plain'],
    ['not heard by controller', 'polyphony=1 amplitude_oncc1=9', 'on60', 'plain'],
    ['heard under a doubt', 'polyphony=1 amplitude_oncc1=9', 'cc1=9 | cc1=0 | on60', 'plain'],
  ])('%s: %s, %s', (_name, opcodes, events, ...expected) => {
    expect(muted(opcodes, events)).toEqual(expected);
  });

  test('what makes no sound is never reached', () => {
    expect(reached('<region> end=-1 <region> sample=*silence', 'on60')).toEqual(['-', '-']);
  });
});
