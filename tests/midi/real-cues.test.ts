import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { needs } from '../tools.ts';
import { readWithJzz } from './jzz-reader.ts';
import { readWithMidiFile } from './midi-file-reader.ts';
import { readWithMidicsv } from './midicsv-reader.ts';
import { factsOfScore } from './our-facts.ts';
import { factsOf } from './raw-cue.ts';

/** Music of a free game, exported by several programs. */
const folder = '/usr/share/games/openttd/baseset/openmsx';

const here = needs(folder, 'openttd-openmsx');
const hasMidicsv = needs('midicsv', 'midicsv');
const cues = here ? readdirSync(folder).filter((name) => name.endsWith('.mid')) : [];

describe.skipIf(!here)('31 real cues', () => {
  it('are all there', () => {
    expect(cues).toHaveLength(31);
  });

  it.each(cues)('%s: readers made by others agree on every event', (name) => {
    const bytes = new Uint8Array(readFileSync(`${folder}/${name}`));
    const score = readMidi(bytes, name);
    const facts = factsOfScore(score);
    expect(score.findings).toEqual([]);
    expect(score.missingTracks).toBe(0);
    expect(facts).toEqual(factsOf(readWithMidiFile(bytes)));
    expect(facts).toEqual(factsOf(readWithJzz(bytes)));
    if (hasMidicsv) expect(facts).toEqual(factsOf(readWithMidicsv(bytes)));
  });

  it('hold 173 838 messages, every one of them in one part', () => {
    const scores = cues.map((name) =>
      readMidi(new Uint8Array(readFileSync(`${folder}/${name}`)), name),
    );
    const events = scores
      .flatMap(({ tracks }) => tracks)
      .reduce((sum, track) => sum + track.events.length, 0);
    const inParts = scores.flatMap(partsOf).reduce((sum, part) => sum + part.events, 0);
    expect(events).toBe(173_838);
    expect(inParts).toBe(events);
  });
});
