import { arpeggio, pad, pulse, sparkle } from './chords.ts';
import type { Cue } from './cue-file.ts';
import { bassLine, melody } from './lines.ts';
import { bassoonInFog } from './outline-tracks.ts';
import { bare, opened } from './parts.ts';
import { groove, timpani } from './percussion.ts';
import {
  chamberInFog,
  clarinetAtLowWater,
  deckAtLowWater,
  uprightAtLowWater,
} from './sfz-tracks.ts';
import { barsOf, sketch } from './sketch.ts';

/** Muted strings from the variation bank; the horns ask for that bank too, which has none for them. */
export const lowWater = (): Cue => {
  const title = '2m1 Low Water';
  const plan = sketch(0, true, [
    { name: 'Mud flats', bars: 8, meter: [4, 4], tempo: 60, chords: [0, 5, 3, 6], loud: 48 },
    {
      ...{ name: 'Footprints', bars: 6, meter: [3, 4], tempo: 72, slowsTo: 52 },
      ...{ chords: [2, 5, 4], loud: 58 },
    },
  ]);
  const [flats, prints] = [barsOf(plan, 0), barsOf(plan, 1)];
  const horns = opened(title, 'horns', { bank: 1 });
  melody(horns, plan, flats.slice(4), { span: [48, 63], overlap: 20, above: -2 });
  const sord = opened(title, 'sord', { bank: 1 });
  pad(sord, plan, plan.bars, { span: [55, 76], voices: 4 });
  const choir = opened(title, 'choir');
  pad(choir, plan, prints, { span: [57, 74], voices: 3, above: 2 });
  const harp = opened(title, 'harp');
  arpeggio(harp, plan, prints, { span: [45, 76], perBeat: 2, above: -12, pedal: true });
  const bass = opened(title, 'bass');
  bassLine(bass, plan, plan.bars, [32, 47]);
  const tracks = [
    ...[horns, harp, choir, bass, sord, clarinetAtLowWater(title, plan)],
    ...[deckAtLowWater(title, plan), uprightAtLowWater(title, plan), bare(title, 'click')],
  ];
  return { title, plan, tracks, endings: 'velocity-0' };
};

/**
 * The chase: staccato strings and drums; the woodwind tunes are held together by the legato pedal. Its
 * revision has a bigger end: a ride cymbal, the oboe louder than ever, and a roll that begins as soft
 * as can be.
 */
export const pilotBoat = (isRevised = false): Cue => {
  const title = '2m2 The Pilot Boat';
  const plan = sketch(4, true, [
    { name: 'Cast off', bars: 8, meter: [4, 4], tempo: 132, chords: [0, 0, 5, 6], loud: 74 },
    { name: 'Across the bar', bars: 12, meter: [6, 8], tempo: 92, chords: [0, 3, 5, 4], loud: 82 },
    { name: 'Alongside', bars: 5, meter: [4, 4], tempo: 120, chords: [5, 6, 0], loud: 90 },
  ]);
  const [off, across, along] = [barsOf(plan, 0), barsOf(plan, 1), barsOf(plan, 2)];
  const flute = opened(title, 'flute');
  const oboe = opened(title, 'oboe');
  for (const wind of [flute, oboe]) {
    wind.controller(across[0]!.tick - 20, 68, 127);
    wind.controller(along[0]!.tick - 10, 68, 0);
  }
  melody(flute, plan, across, { span: [71, 88], overlap: 40, above: -6 });
  melody(oboe, plan, across, { span: [62, 78], overlap: 36, above: -10 });
  const horns = opened(title, 'horns');
  melody(horns, plan, along, { span: [52, 68], overlap: 16, above: 8 });
  const stac = opened(title, 'stac');
  pulse(stac, plan, plan.bars, {
    ...{ span: [43, 74], perBeat: 4, voices: 3, sounding: 0.6, above: -8 },
  });
  const low = opened(title, 'low');
  pad(low, plan, along, { span: [40, 57], voices: 2, above: -4 });
  const timp = opened(title, 'timpani');
  timpani(timp, plan, [...off, ...along], [40, 52]);
  const kit = opened(title, 'kit', { program: 8 });
  groove(kit, plan.bars, [
    { key: 36, beats: [0, 2.5], above: 8 },
    { key: 43, beats: [0.75, 1.5, 3.5], above: -6 },
    { key: 47, beats: [1, 3], above: 0, every: 2 },
    { key: 46, beats: [1.5], above: -24, every: 2 },
    { key: 42, beats: [1.75, 3.25], above: -18 },
    { key: 57, beats: [0], above: 6, every: 8 },
  ]);
  const bass = opened(title, 'bass');
  bassLine(bass, plan, plan.bars, [33, 47]);
  if (isRevised) {
    const [from, to] = [along[2]!, along[4]!];
    const end = to.tick + to.length;
    oboe.swell(1, from.tick, end, [70, 124]);
    [74, 77, 79, 81].forEach((key, i) => {
      oboe.note(from.tick + i * 1440, 1400, key, 96);
    });
    for (const bar of along.slice(2)) {
      [0, 1, 1.5, 2, 3, 3.5].forEach((beat, i) => {
        kit.note(bar.tick + beat * bar.beat, 60, 51, 84 + 4 * (i % 3));
      });
    }
    const roll = across.at(-1)!;
    for (let i = 0; i < 16; i++) {
      timp.note(roll.tick + (i * roll.length) / 16, 60, 43, 18 + 5 * i);
    }
  }
  const tracks = [flute, oboe, horns, low, stac, timp, kit, bass, bare(title, 'click')];
  const name = isRevised ? `${title} v2` : title;
  return { title: name, plan, tracks, endings: 'velocity-0' };
};

/** The end of the reel: slows to a stop and leaves the piano's pedal down. */
export const fogSignal = (): Cue => {
  const title = '2m3 Fog Signal';
  const plan = sketch(2, false, [
    { name: 'Bell buoy', bars: 6, meter: [6, 8], tempo: 50, chords: [0, 3, 1, 4, 0, 5], loud: 46 },
    {
      ...{ name: 'Home', bars: 8, meter: [4, 4], tempo: 76, slowsTo: 38 },
      ...{ chords: [0, 4, 5, 3, 0, 3, 4, 0], loud: 62 },
    },
  ]);
  const [buoy, home] = [barsOf(plan, 0), barsOf(plan, 1)];
  const piano = opened(title, 'piano');
  const broken = { span: [50, 78], perBeat: 2, above: -6 } as const;
  arpeggio(piano, plan, plan.bars.slice(0, -1), { ...broken, pedal: true });
  arpeggio(piano, plan, plan.bars.slice(-1), broken);
  piano.controller(plan.bars.at(-1)!.tick + 30, 64, 127);
  const oboe = opened(title, 'oboe');
  melody(oboe, plan, buoy, { span: [62, 76], overlap: 20 });
  const horns = opened(title, 'horns', { tick: home[0]!.tick, bank: 0 });
  melody(horns, plan, home, { span: [50, 65], overlap: 24 });
  const high = opened(title, 'high');
  pad(high, plan, home, { span: [61, 80], voices: 3, above: -4 });
  const low = opened(title, 'low');
  pad(low, plan, home, { span: [42, 59], voices: 2, above: -6 });
  const choir = opened(title, 'choir');
  pad(choir, plan, home.slice(4), { span: [57, 73], voices: 3, above: -8 });
  const celesta = opened(title, 'celesta');
  sparkle(celesta, plan, buoy, [78, 95]);
  const kit = opened(title, 'kit');
  groove(kit, buoy, [{ key: 56, beats: [0], above: 0, every: 2 }]);
  const bass = opened(title, 'bass');
  bassLine(bass, plan, home, [33, 47]);
  const tracks = [
    ...[oboe, horns, high, low, kit, celesta, choir, piano, bass, chamberInFog(title, plan)],
    ...[bassoonInFog(title, plan), bare(title, 'click')],
  ];
  return { title, plan, tracks, endings: 'note-off' };
};
