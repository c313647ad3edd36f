import { readSfz } from '../../src/instruments/sfz/read.ts';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { clock } from '../../src/midi/timeline.ts';
import type { Score } from '../../src/midi/score.ts';
import { asExported, type PlayOptions } from '../../src/playback/play-copy.ts';
import { playCue } from '../../src/playback/play-cue.ts';
import type { FileUsage } from '../../src/playback/zone-usage.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import type { SfzCue, SfzData, SfzEvent } from '../oracle/sfz-data.ts';
import { scoreOf } from './oracle-score.ts';
import { routedWhole } from './whole-cue.ts';

/** The text of an instrument that the naive player has as raw opcodes. */
export const sfzText = ({ control, headers }: SfzData): string =>
  [...(control === undefined ? [] : [{ name: 'control', opcodes: control }]), ...headers]
    .map(({ name, opcodes }) =>
      [`<${name}>`, ...opcodes.map(([opcode, value]) => `${opcode}=${value}`)].join('\n'),
    )
    .join('\n');

/** Reads an instrument from its text alone: its samples are missing, which is only a finding. */
export const readText = (
  text: string,
  others: Readonly<Record<string, Uint8Array | string>> = {},
): Promise<Instrument> =>
  readSfz(new MemoryFiles({ 'made.sfz': text, ...others }), 'made.sfz', () => 'digest');

const statusOf: Readonly<Record<SfzEvent['kind'], number>> = {
  'note-off': 0x80,
  'note-on': 0x90,
  'poly-pressure': 0xa0,
  controller: 0xb0,
  program: 0xc0,
  pressure: 0xd0,
  bend: 0xe0,
};

/** A score of one track on port 0 that holds just these events. */
export const scoreOfSfz = ({ events, tempos }: SfzCue): Score => {
  const empty = scoreOf([]);
  const tempo = [
    ...(tempos[0]?.tick === 0 ? [] : empty.timelines[0]!.tempo),
    ...tempos.map(({ tick, bpm }) => ({ tick, microsecondsPerQuarter: 60_000_000 / bpm })),
  ];
  const track = empty.tracks[0]!;
  return {
    ...empty,
    timelines: [{ ...empty.timelines[0]!, tempo }],
    tracks: [
      {
        ...track,
        events: {
          length: events.length,
          tick: Float64Array.from(events, ({ tick }) => tick),
          status: Uint8Array.from(events, ({ kind, channel }) => statusOf[kind] | channel),
          data1: Uint8Array.from(events, ({ data1 }) => data1),
          data2: Uint8Array.from(events, ({ data2 }) => data2),
        },
        end: events.at(-1)?.tick ?? 0,
      },
    ],
  };
};

/** The same cue with its seconds as its tempos have them. */
export const inSeconds = (cue: SfzCue): SfzCue => {
  const times = clock(scoreOfSfz(cue).timelines[0]!);
  return {
    ...cue,
    events: cue.events.map((event) => ({ ...event, seconds: times.secondsAt(event.tick) })),
  };
};

/** What a cue asks of an instrument that plays all of it. */
export const usageOfSfz = (
  instrument: Instrument,
  cue: SfzCue,
  name = '1m1',
  options: PlayOptions = asExported,
): FileUsage => {
  const score = scoreOfSfz(cue);
  const parts = partsOf(score);
  const file = { cue: name, path: `${name}.mid`, sha256: name, version: null, file: 0 };
  const routed = routedWhole(instrument, score, parts);
  return playCue(file, score, parts, routed, new Map([[instrument.id, instrument]]), options);
};
