import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeMidi } from 'midi-file';
import { alternate, median, milliseconds, times } from './measure.js';
import { child, node, program } from './processes.js';

/** An invented template of the size that large scores have (common practice: 200 to 2 000 tracks). */
const tracks = 600;
const instruments = 60;
const cues = 12;
/** Notes of a track that plays in a cue: every sixth does. */
const notes = 120;

const articulations = ['long', 'short', 'roll', 'mute', 'slide', 'trill'];

/** 6 articulations x 24 key ranges x 3 dynamics x 2 round robins = 864 zones. */
const tableOf = () =>
  [
    'articulation,switch,keys,velocities,round-robin,seconds,rate,bits,channels',
    ...articulations.map(
      (name, i) => `${name},${12 + i},36..107 every 3,1-40|41-90|91-127,2,4.5,48000,24,2`,
    ),
  ].join('\n');

const trackName = (track) => `Band ${Math.floor(track / 10) + 1} desk ${(track % 10) + 1}`;

const cueOf = (cue) => {
  const events = (track) => {
    const plays = (track + cue) % 6 === 0;
    const played = plays ? notes : 1;
    const all = [
      { deltaTime: 0, meta: true, type: 'trackName', text: trackName(track) },
      { deltaTime: 0, type: 'noteOn', channel: 0, noteNumber: 12 + (track % 6), velocity: 100 },
      { deltaTime: 10, type: 'noteOff', channel: 0, noteNumber: 12 + (track % 6), velocity: 0 },
    ];
    for (let i = 0; i < played; i++) {
      const noteNumber = 48 + ((i * 7 + track * 5 + cue) % 36);
      const velocity = 1 + ((i * 31 + track * 11) % 127);
      all.push(
        { deltaTime: 38, type: 'noteOn', channel: 0, noteNumber, velocity },
        { deltaTime: 154, type: 'noteOff', channel: 0, noteNumber, velocity: 0 },
      );
    }
    all.push({ deltaTime: 0, meta: true, type: 'endOfTrack' });
    return all;
  };
  return Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: tracks, ticksPerBeat: 480 },
      tracks: Array.from({ length: tracks }, (_, track) => events(track)),
    }),
  );
};

const templateOf = () => `cues: cues
machines: { a: { memory: 256 GiB, reserve: 16 GiB }, b: { memory: 64 GiB, reserve: 8 GiB } }
players:
  p: { loads: streamed, head: 60 KiB, shares: machine, unloads: layer, per-zone: 200 B, per-copy: 12 MiB }
  q: { loads: whole, shares: copy, unloads: sample }
instruments:
${Array.from({ length: instruments }, (_, i) => `  band-${i + 1}: { zones: tables/band-${i + 1}.csv, middle-c: C4, machine: ${i % 2 === 0 ? 'a' : 'b'}, player: ${i % 5 === 0 ? 'q' : 'p'} }`).join('\n')}
routes:
${Array.from({ length: instruments }, (_, i) => `  - { track: "Band ${i + 1} desk *", instrument: band-${i + 1} }`).join('\n')}
`;

/** Less than the reel needs, and more than any cue does: it takes several groups. */
const budgets = ['--budget', 'a=6GiB', '--budget', 'b=6GiB'];

/** A template of 600 tracks and 60 instruments against reading its cues, as whole processes. */
export const templateRows = (folder, { rounds, say }) => {
  const score = join(folder, 'score');
  mkdirSync(join(score, 'cues'), { recursive: true });
  mkdirSync(join(score, 'tables'));
  let size = 0;
  for (let cue = 0; cue < cues; cue++) {
    const bytes = cueOf(cue);
    size += bytes.length;
    writeFileSync(join(score, 'cues', `1m${cue + 1}.mid`), bytes);
  }
  for (let i = 0; i < instruments; i++) {
    writeFileSync(join(score, 'tables', `band-${i + 1}.csv`), tableOf());
  }
  const template = join(score, 'keepset.yaml');
  writeFileSync(template, templateOf());
  const keep = join(folder, 'score-keep.json');
  const all = alternate(
    {
      start: () => node('-e', '0'),
      reading: () => node(child, 'reel', 'keepset', join(score, 'cues')),
      planning: () => node(program, 'plan', '--template', template, '-o', keep, '--quiet'),
      memory: () =>
        node(program, 'memory', '--template', template, '--groups', ...budgets, '--quiet'),
    },
    { rounds: Math.min(rounds, 5), warm: 1 },
  );
  const over = (name) => median(all[name]) - median(all.start);
  const zones = instruments * articulations.length * 24 * 3 * 2;
  say(
    `${cues} cues of ${tracks} tracks, ${(size / 1e6).toFixed(1)} MB; keep file ${(statSync(keep).size / 1e6).toFixed(1)} MB`,
  );
  return [
    {
      what: `plan by a template of ${tracks} tracks, ${instruments} instruments, ${zones} zones, ${cues} cues`,
      ours: milliseconds(over('planning')),
      theirs: `reading ${milliseconds(over('reading'))}`,
      reached: `${times(over('planning') / over('reading'))} its time`,
      target: '',
      met: null,
    },
    {
      what: 'memory of the same reel, with loading groups',
      ours: milliseconds(over('memory')),
      theirs: `planning ${milliseconds(over('planning'))}`,
      reached: `${times(over('memory') / over('planning'))} its time`,
      target: '',
      met: null,
    },
  ];
};
