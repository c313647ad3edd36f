import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startDifferences, unforeseen } from './compare-starts.ts';
import { plainStarts, unionStarts } from './engine-starts.ts';
import { fluidLog, startsOf } from './fluid-log.ts';
import { all, banks, cueCount, realCues } from './material.ts';
import { fluidSynthVersion } from './render.ts';
import { onlyPart, proveSeed, Seeded } from './seeded.ts';

/**
 * The voices that FluidSynth starts while it plays the real cues, by channel, key and velocity, are
 * the voices that the plain reading starts.
 */
const cues = await realCues();
const chosen = onlyPart ? new Seeded(proveSeed).choose(cues, 8).sort() : cues;

/** Real cues in which FluidSynth 2.3.1 does not do what the plain reading says, and why. */
const knownDifferences: ReadonlyMap<string, string> = new Map<string, string>([]);

const ready = all('fluidsynth', 'cues', 'timgm');
const count = { equal: 0, voices: 0 };
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'keepset-log-'));
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
  console.log(
    `${(await fluidSynthVersion()) ?? 'no FluidSynth'}\nlog: ${String(count.equal)} of ` +
      `${String(chosen.length)} cues equal, ${String(count.voices)} voices`,
  );
});

describe.runIf(ready)('the plain reading starts the voices of the log', () => {
  it('has the cues that it speaks of', () => {
    expect(cues).toHaveLength(cueCount);
  });

  it.each(chosen.map((cue) => [path.basename(cue), cue]))('%s', async (name, cue) => {
    const log = startsOf(await fluidLog(banks.timgm, cue, path.join(folder, name)));
    const voices = [...log.values()].reduce((sum, some) => sum + some, 0);
    expect(voices).toBeGreaterThan(0);
    const differences = startDifferences(
      log,
      await plainStarts(cue, banks.timgm),
      await unionStarts(cue, banks.timgm),
    );
    expect(unforeseen(differences)).toEqual([]);
    if (knownDifferences.has(name)) {
      expect(differences, 'named as a difference, but equal').not.toEqual([]);
      return;
    }
    expect(differences).toEqual([]);
    count.equal += 1;
    count.voices += voices;
  });
});
