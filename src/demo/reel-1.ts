import { arpeggio, pad, pulse, sparkle } from './chords.ts';
import type { Cue } from './cue-file.ts';
import { bassLine, melody } from './lines.ts';
import { bassoonAtLoft, celloInLampRoom } from './outline-tracks.ts';
import { bare, opened } from './parts.ts';
import { groove, timpani } from './percussion.ts';
import { chamberAtHarbour, clarinetAtLoft, uprightAtLoft } from './sfz-tracks.ts';
import { barsOf, sketch } from './sketch.ts';

/** Opening titles for everybody; begins with GM System On, so the programs come half a beat later. */
export const titles = (): Cue => {
  const title = '1m1 Saltmere Titles';
  const plan = sketch(2, true, [
    { name: 'Open water', bars: 5, meter: [4, 4], tempo: 72, chords: [0, 5, 2, 6, 0], loud: 50 },
    { name: 'Quayside', bars: 8, meter: [3, 4], tempo: 96, chords: [0, 3, 5, 4], loud: 68 },
    {
      ...{ name: 'Title card', bars: 5, meter: [4, 4], tempo: 66, slowsTo: 44 },
      ...{ chords: [5, 6, 0, 4, 0], loud: 86 },
    },
  ]);
  const [water, quay, card] = [barsOf(plan, 0), barsOf(plan, 1), barsOf(plan, 2)];
  const after = { tick: 240 };
  const flute = opened(title, 'flute', after);
  melody(flute, plan, quay, { span: [67, 86], overlap: 20 });
  const horns = opened(title, 'horns', after);
  melody(horns, plan, card, { span: [50, 67], overlap: 30 });
  const high = opened(title, 'high', after);
  pad(high, plan, water, { span: [62, 81], voices: 3 });
  melody(high, plan, card, { span: [67, 86], overlap: 28, above: -4 });
  const low = opened(title, 'low', after);
  pad(low, plan, plan.bars, { span: [43, 60], voices: 3, above: -6 });
  const pizz = opened(title, 'pizz', after);
  pulse(pizz, plan, quay, {
    ...{ span: [52, 74], perBeat: 2, voices: 2, sounding: 0.5, offBeatsOnly: true },
  });
  const harp = opened(title, 'harp', after);
  arpeggio(harp, plan, quay, { span: [48, 79], perBeat: 2, above: -8, pedal: true });
  const timp = opened(title, 'timpani', after);
  timpani(timp, plan, card, [41, 52]);
  const kit = opened(title, 'kit', after);
  groove(kit, card, [
    { key: 49, beats: [0], above: 4, every: 4 },
    { key: 36, beats: [0, 2], above: -8 },
  ]);
  const bass = opened(title, 'bass', after);
  bassLine(bass, plan, [...quay, ...card], [31, 48]);
  const tracks = [flute, horns, high, low, pizz, harp, timp, kit, bass, bare(title, 'click')];
  return { title, plan, tracks, systemOn: true, endings: 'note-off' };
};

/** The arrival by sea. Version 4 adds a flute call and a low timpani stroke for a longer last shot. */
export const harbour = (version: 3 | 4): Cue => {
  const cue = '1m2 Harbour';
  const plan = sketch(5, false, [
    { name: 'Breakwater', bars: 6, meter: [4, 4], tempo: 84, chords: [0, 5, 3, 4, 0, 3], loud: 52 },
    { name: 'Moorings', bars: 8, meter: [3, 4], tempo: 104, chords: [0, 2, 3, 4], loud: 62 },
    {
      ...{ name: 'The inn on the quay', bars: 8, meter: [6, 8], tempo: 62, slowsTo: 40 },
      ...{ chords: [0, 3, 5, 1, 0, 3, 4, 0], loud: 70 },
    },
  ]);
  const [breakwater, moorings, inn] = [barsOf(plan, 0), barsOf(plan, 1), barsOf(plan, 2)];
  const flute = opened(cue, 'flute');
  melody(flute, plan, [...moorings, ...inn], { span: [69, 88], overlap: 24 });
  const oboe = opened(cue, 'oboe', { tick: breakwater[0]!.tick });
  melody(oboe, plan, breakwater, { span: [64, 81], overlap: 18 });
  const high = opened(cue, 'high');
  pad(high, plan, plan.bars, { span: [60, 79], voices: 3, above: -6 });
  const low = opened(cue, 'low');
  pad(low, plan, plan.bars, { span: [41, 58], voices: 2, above: -10 });
  const pizz = opened(cue, 'pizz');
  pulse(pizz, plan, moorings, {
    ...{ span: [48, 70], perBeat: 1, voices: 2, sounding: 0.4 },
  });
  const harp = opened(cue, 'harp');
  arpeggio(harp, plan, inn, { span: [43, 77], perBeat: 3, above: -10, pedal: true });
  const celesta = opened(cue, 'celesta');
  sparkle(celesta, plan, moorings, [77, 96]);
  const bass = opened(cue, 'bass');
  bassLine(bass, plan, [...moorings, ...inn], [33, 48]);
  const timp = opened(cue, 'timpani');
  timpani(timp, plan, inn.slice(4), [41, 50]);
  if (version === 4) {
    const after = inn.at(-1)!.tick + inn.at(-1)!.length;
    flute.swell(11, after, after + 1200, [90, 118]);
    [93, 96, 94, 96].forEach((key, index) => {
      flute.note(after + index * 240, 220, key, 112 + 3 * index);
    });
    timp.note(after, 1200, 36, 118);
  }
  const chamber = chamberAtHarbour(cue, plan);
  const tracks = [
    ...[flute, oboe, high, low, pizz, harp, celesta, bass, timp, chamber],
    bare(cue, 'click'),
  ];
  return { title: `${cue} v${String(version)}`, plan, tracks, endings: 'note-off' };
};

/** Light work music. The pizzicato comes in a sixteenth before its program change. */
export const netLoft = (): Cue => {
  const title = '1m3 Net Loft';
  const plan = sketch(7, false, [
    { name: 'Mending', bars: 8, meter: [4, 4], tempo: 112, chords: [0, 0, 3, 4], loud: 64 },
    {
      ...{ name: 'Up the ladder', bars: 8, meter: [2, 4], tempo: 120, slowsTo: 84 },
      ...{ chords: [5, 3, 1, 4], loud: 76 },
    },
  ]);
  const [mending, ladder] = [barsOf(plan, 0), barsOf(plan, 1)];
  const pizz = bare(title, 'pizz');
  const pickUp = mending[0]!.tick - 120;
  pizz.note(pickUp, 90, 62, 66);
  pizz.program(pickUp + 60, 45);
  pizz.controller(pickUp + 60, 7, 100);
  pulse(pizz, plan, plan.bars, {
    ...{ span: [43, 69], perBeat: 2, voices: 2, sounding: 0.4, above: -6 },
  });
  const oboe = opened(title, 'oboe');
  melody(oboe, plan, mending, { span: [62, 79], overlap: 15 });
  const flute = opened(title, 'flute');
  melody(flute, plan, ladder, { span: [72, 88], overlap: 12, above: -8 });
  const celesta = opened(title, 'celesta');
  sparkle(celesta, plan, ladder, [79, 98]);
  const bass = opened(title, 'bass');
  bassLine(bass, plan, plan.bars, [33, 47]);
  const kit = opened(title, 'kit');
  groove(kit, plan.bars, [
    { key: 37, beats: [1, 3], above: -14 },
    { key: 42, beats: [0.5, 1.5, 2.5, 3.5], above: -20 },
    { key: 54, beats: [1.5], above: -12, every: 2 },
  ]);
  const tracks = [
    ...[oboe, flute, pizz, celesta, kit, bass, clarinetAtLoft(title, plan)],
    ...[uprightAtLoft(title, plan), bassoonAtLoft(title, plan), bare(title, 'click')],
  ];
  return { title, plan, tracks, endings: 'note-off' };
};

/** Night. The strings change to tremolo on a note's tick, with the note first in the file. */
export const lampRoom = (): Cue => {
  const title = '1m4 Lamp Room v2';
  const plan = sketch(9, true, [
    { name: 'Stairs', bars: 6, meter: [4, 4], tempo: 66, chords: [0, 5, 3, 0, 1, 4], loud: 44 },
    { name: 'The lamp is out', bars: 6, meter: [3, 4], tempo: 80, chords: [0, 3, 4], loud: 60 },
  ]);
  const [stairs, lamp] = [barsOf(plan, 0), barsOf(plan, 1)];
  const piano = opened(title, 'piano', { tick: stairs[0]!.tick, bank: 0 });
  arpeggio(piano, plan, stairs, { span: [52, 76], perBeat: 2, above: -4, pedal: true });
  const high = opened(title, 'high');
  pad(high, plan, stairs, { span: [64, 80], voices: 2 });
  high.program(lamp[0]!.tick, 44, true);
  pad(high, plan, lamp, { span: [62, 81], voices: 3, above: 4 });
  const low = opened(title, 'low', { tick: stairs[0]!.tick });
  pad(low, plan, plan.bars, { span: [40, 57], voices: 2, above: -4 });
  const celesta = opened(title, 'celesta');
  sparkle(celesta, plan, stairs, [76, 93]);
  const kit = opened(title, 'kit');
  groove(kit, lamp, [{ key: 81, beats: [0], above: -10, every: 3 }]);
  const cello = celloInLampRoom(title, plan);
  const tracks = [piano, high, low, celesta, kit, cello, bare(title, 'click')];
  return { title, plan, tracks, endings: 'velocity-0' };
};
