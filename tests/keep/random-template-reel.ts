import fc from 'fast-check';
import type { Instrument } from '../../src/instruments/instrument.ts';
import type { PlanInput } from '../../src/keep/make-plan.ts';
import type { PlayOptions } from '../../src/playback/play-copy.ts';
import type { FileUsage } from '../../src/playback/zone-usage.ts';
import { defaultPlayer, type Grain } from '../../src/template/player.ts';
import type { Template } from '../../src/template/template.ts';
import type { Settlements } from '../../src/terms/settlement.ts';
import type { SfzCue, SfzData } from '../oracle/sfz-data.ts';
import { randomReel, randomSfz } from '../oracle/sfz-random.ts';
import { readText, sfzText, usageOfSfz } from '../playback/sfz-cue.ts';
import { wholeTemplate } from '../playback/whole-cue.ts';

/**
 * Random reels of a template with two instruments: copies that come and go from cue to cue, versions,
 * damaged and unreadable cues, stereo halves, pins, and all ways to share and to unload.
 */
export interface RandomReel {
  readonly instruments: readonly SfzData[];
  readonly partners: boolean;
  readonly shares: 'copy' | 'machine';
  readonly unloads: Grain;
  readonly isPinned: boolean;
  readonly settle: Settlements;
  readonly cues: readonly RandomCue[];
}

interface RandomCue {
  readonly id: readonly [number: number, version: number | null];
  readonly state: FileUsage['state'];
  readonly copies: readonly {
    readonly instrument: number;
    readonly copy: 'One' | 'Two';
    readonly played: SfzCue;
  }[];
}

const copies = fc.uniqueArray(
  fc.record({
    instrument: fc.constantFrom(0, 0, 1),
    copy: fc.constantFrom<'One' | 'Two'>('One', 'Two'),
    played: randomReel().map(([cue]) => cue!),
  }),
  {
    minLength: 1,
    maxLength: 3,
    selector: ({ instrument, copy }) => `${String(instrument)} ${copy}`,
  },
);

export const randomTemplateReel: fc.Arbitrary<RandomReel> = fc.record({
  instruments: fc.tuple(randomSfz(), randomSfz()),
  partners: fc.boolean(),
  shares: fc.constantFrom('copy', 'machine'),
  unloads: fc.constantFrom('sample', 'sample', 'layer', 'articulation', 'microphone', 'instrument'),
  isPinned: fc.boolean(),
  settle: fc.constantFrom({}, {}, { 'start-state': 'plain' }, { order: 'plain', tail: 'plain' }),
  cues: fc
    .uniqueArray(
      fc.record({
        id: fc.tuple(fc.constantFrom(1, 2, 3), fc.constantFrom(null, 2, 3)),
        state: fc.constantFrom('read', 'read', 'read', 'read', 'damaged', 'unreadable'),
        copies,
      }),
      { minLength: 2, maxLength: 5, selector: ({ id }) => id.join(' ') },
    )
    // In reel order, but for what a template may say otherwise.
    .map((cues) => [...cues].sort((a, b) => a.id[0] - b.id[0])),
});

/** Everything a plan is made of. */
export const inputOf = async (
  { instruments, partners, shares, unloads, isPinned, settle, cues }: RandomReel,
  options: PlayOptions,
): Promise<PlanInput> => {
  const read = await Promise.all(
    instruments.map(async (data, i) => withSamples(await readText(sfzText(data)), i, partners)),
  );
  const template: Template = {
    ...wholeTemplate(read[0]!),
    instruments: read.map((instrument) => ({
      ...wholeTemplate(instrument).instruments[0]!,
      player: { ...defaultPlayer, shares, unloads },
    })),
    settle,
    pins: isPinned
      ? [{ instrument: 'i0', articulation: null, keys: [0, 59], velocities: [1, 40], at: null }]
      : [],
  };
  const files = cues.map(({ id: [number, version], state, copies: own }): FileUsage => {
    const id = `1m${String(number)}${version === null ? '' : ` v${String(version)}`}`;
    const usages = own.map(({ instrument, copy, played }) => {
      const file = usageOfSfz(read[instrument]!, played, id, options);
      return { file, copies: file.copies.map((one) => ({ ...one, copy })) };
    });
    const played = state === 'unreadable' ? [] : usages.flatMap((usage) => usage.copies);
    return {
      ...usages[0]!.file,
      version,
      state,
      tainted: state === 'read' ? [] : state === 'damaged' ? ['i1'] : ['i0', 'i1'],
      copies: played,
    };
  });
  return {
    template,
    instruments: new Map(read.map((instrument) => [instrument.id, instrument])),
    files,
    reel: { without: [], newest: false, acceptPartial: [], allowUnmapped: false, split: null },
    isPartial: false,
    rare: null,
    headroomCurve: false,
    findings: [],
  };
};

/** A sample of its own for each zone, as many frames as no sum of others has; some in stereo pairs. */
const withSamples = (instrument: Instrument, number: number, partners: boolean): Instrument => ({
  ...instrument,
  id: `i${String(number)}`,
  sha256: `digest ${String(number)}`,
  zones: instrument.zones.map((zone, i) => ({ ...zone, samples: [i], group: 0 })),
  samples: instrument.zones.map((_, i) => ({
    name: `sample ${String(i)}`,
    frames: 2 ** i,
    channels: 1,
    width: 2,
    rate: 48_000,
    present: true,
    partner: partners && (i ^ 1) < instrument.zones.length ? i ^ 1 : null,
  })),
});
