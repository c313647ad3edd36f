/**
 * The demo's SFZ instruments, trimmed through the command line and read again: the naive player of the
 * tests reaches the regions that it reaches in the full ones, under the same doubts, and no other region
 * is left that sounds. Nothing here renders SFZ. Takes some minutes.
 */
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SfzCue, SfzData } from '../oracle/sfz-data.ts';
import { playSfz } from '../oracle/sfz-player.ts';
import { readInstrument } from '../oracle/sfz-regions.ts';
import { Renders } from './renders.ts';
import { onlyPart } from './seeded.ts';
import { sfzData, trackOf } from './sfz-disk.ts';
import { keepset, trimKeep, type TrimmedInstrument } from './trimmed-set.ts';

/** Controllers that these instruments ask for: wheel and pedals; no cue resets any. */
const heeded: ReadonlySet<number> = new Set([1, 64, 66, 67]);

const instruments = [
  ...(onlyPart
    ? []
    : [{ id: 'chamber', file: 'chamber-strings.sfz', tracks: ['Chamber', 'Chamber low'] }]),
  { id: 'clarinet', file: 'clarinet.sfz', tracks: ['Cl 1'] },
  { id: 'deck', file: 'deck.sfz', tracks: ['Deck perc'] },
  { id: 'upright', file: 'upright.sfz', tracks: ['Upright'] },
] as const;
if (onlyPart) console.log('left out: chamber-strings.sfz, which takes minutes');

let folder: Renders;
let demo: string;
let trimmed: readonly TrimmedInstrument[];
const said: string[] = [];
beforeAll(async () => {
  folder = await Renders.open();
  demo = folder.file('demo');
  const [keep, template] = [folder.file('json'), path.join(demo, 'sfz.yaml')];
  await keepset('demo', '--out', demo);
  await keepset('plan', '--template', template, '-o', keep);
  trimmed = await trimKeep(keep, folder.file('trimmed'), template);
}, 120_000);
afterAll(async () => {
  await folder.close();
  console.log(['SFZ instruments trimmed and played again:', ...said].join('\n'));
});

/** The cues of one track: what one copy of an instrument plays. */
const copyOf = async (track: string): Promise<readonly SfzCue[]> => {
  const names = (await readdir(path.join(demo, 'cues'))).sort();
  const cues: SfzCue[] = [];
  for (const name of names) {
    const cue = await trackOf(path.join(demo, 'cues', name), track, heeded);
    if (cue !== null) cues.push(cue);
  }
  return cues;
};

/** A region that some copy reaches, or that stops others: by its sample, with its sets of doubts. */
interface Reached {
  readonly sample: string;
  readonly reached: readonly (readonly string[])[];
  readonly mutes: readonly (readonly string[])[];
}

interface Played {
  readonly regions: number;
  /** In the order of the file. */
  readonly reached: readonly Reached[];
  /** Samples of regions that nothing reaches. */
  readonly idle: readonly string[];
}

const playWith = (data: SfzData, copies: readonly (readonly SfzCue[])[]): Played => {
  const played = copies.map((reel) => playSfz(data, reel).regions);
  const regions = readInstrument(data).regions.map(({ opcodes }, at) => ({
    sample: opcodes.get('sample') ?? '',
    reached: played.flatMap((copy) => copy[at]!.reached),
    mutes: played.flatMap((copy) => copy[at]!.mutes),
  }));
  const isUsed = ({ reached, mutes }: Reached): boolean => reached.length + mutes.length > 0;
  return {
    regions: regions.length,
    reached: regions.filter(isUsed),
    idle: regions.filter((one) => !isUsed(one)).map(({ sample }) => sample),
  };
};

const isHeard = ({ reached }: Reached): boolean => reached.length > 0;

describe.each(instruments)('$id', ({ id, file, tracks }) => {
  it('reaches the same regions under the same doubts', { timeout: 0 }, async () => {
    const copies = await Promise.all(tracks.map(copyOf));
    const one = trimmed.find((instrument) => instrument.id === id)!;
    const smaller = await sfzData(one.file);
    const before = playWith(await sfzData(path.join(demo, 'instruments', file)), copies);
    const after = playWith(smaller, copies);
    expect(before.reached.length).toBeGreaterThan(12);
    expect(before.idle).not.toEqual([]);
    expect(after.reached.filter(isHeard)).toEqual(before.reached.filter(isHeard));
    // What only stops others, or is waited for by a release, stays without its sample. Where all that it
    // could have stopped is gone too it has nothing left to do.
    const silent = (played: Played) => played.reached.filter((one) => !isHeard(one));
    expect(silent(after).every(({ sample }) => sample === '*silence')).toBe(true);
    const doubts = ({ mutes }: Reached): string => JSON.stringify(mutes);
    expect(silent(before).map(doubts)).toEqual(expect.arrayContaining(silent(after).map(doubts)));
    const left = after.idle.length + after.reached.length;
    expect(left).toBeGreaterThanOrEqual(before.reached.length);
    // What else is left holds a place and has no sound.
    expect(after.idle.filter((sample) => sample !== '*silence')).toEqual([]);
    said.push(
      `${id}: ${String(after.reached.length)} regions reached in both, ${String(after.regions)} of ` +
        `${String(before.regions)} left`,
    );

    // The same without the first region that is reached: the comparison sees it.
    const names = new Set(after.reached.filter(isHeard).map(({ sample }) => sample));
    const at = smaller.headers.findIndex(
      ({ name, opcodes }) =>
        name === 'region' &&
        opcodes.some(([opcode, value]) => opcode === 'sample' && names.has(value)),
    );
    expect(at).toBeGreaterThan(0);
    const headers = smaller.headers.filter((_, index) => index !== at);
    const less = playWith({ headers }, copies).reached.filter(isHeard);
    expect(less).not.toEqual(before.reached.filter(isHeard));
  });

  it('has the samples of its regions, byte for byte', async () => {
    const one = trimmed.find((instrument) => instrument.id === id)!;
    const data = await sfzData(one.file);
    const places = data.headers.flatMap(({ opcodes }) =>
      opcodes.flatMap(([name, value]) => (name === 'default_path' ? [value] : [])),
    );
    const samples = readInstrument(data)
      .regions.map(({ opcodes }) => opcodes.get('sample')!)
      .filter((sample) => !sample.startsWith('*'));
    expect(places.length).toBeLessThan(2);
    expect(samples.length).toBeGreaterThan(12);
    for (const sample of new Set(samples)) {
      const inside = `${places[0] ?? ''}${sample}`;
      const copy = await readFile(path.join(path.dirname(one.file), inside));
      expect(copy.equals(await readFile(path.join(demo, 'instruments', inside))), inside).toBe(
        true,
      );
    }
  });
});
