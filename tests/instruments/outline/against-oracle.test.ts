import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { outlineInstrument } from '../../../src/instruments/outline/outline-instrument.ts';
import { parseOutline } from '../../../src/instruments/outline/reading/parse-outline.ts';
import { zoneDoubts } from '../../../src/keep/reach.ts';
import { namesOf } from '../../../src/terms/doubt.ts';
import {
  articulation,
  legato,
  releases,
  type OutlineData,
  type OutlineDoubts,
  type OutlineEvent,
  type OutlineReel,
} from '../../oracle/outline-data.ts';
import { playOutline, type OutlineUsage } from '../../oracle/outline-player.ts';
import { outlineStyle, randomOutline } from '../../oracle/outline-random.ts';
import { randomOutlineReel } from '../../oracle/outline-random-events.ts';
import { outlineText, type OutlineStyle } from '../../oracle/outline-text.ts';
import { zonesOf, type OutlineZone } from '../../oracle/outline-zones.ts';
import { inSeconds, usageOfSfz } from '../../playback/sfz-cue.ts';
import { runs as fewer } from '../../runs.ts';

/**
 * Outlines, from their text to the doubt sets of their zones, against a naive player that was written
 * from the design alone and imports nothing of ours: every zone against every event.
 */
const asked = process.env['KEEPSET_OUTLINE_RUNS'];
const runs = asked === undefined ? fewer(120, 60) : Number(asked);
const seed = Number(process.env['KEEPSET_OUTLINE_SEED'] ?? 31);

const read = (text: string): Instrument => {
  const { outline, findings } = parseOutline('horns.yaml', new TextEncoder().encode(text));
  return outlineInstrument(outline, 'digest', findings);
};

const byEngine = (
  outline: OutlineData,
  style: OutlineStyle,
  reel: OutlineReel,
): readonly OutlineUsage[] => {
  const made = read(outlineText(outline, style));
  const files = reel.map((cue, i) => usageOfSfz(made, cue, `1m${String(i + 1)}`));
  const doubts = zoneDoubts(made, files);
  return made.zones.map(({ samples: [sample] }, i) => ({
    zone: made.samples[sample!]!.name,
    reached: doubts[i]!.map((set) => [...namesOf(set)].sort()),
  }));
};

const texts = (sets: readonly OutlineDoubts[]): string =>
  sets
    .map((set) => set.join('+') || 'plain')
    .sort()
    .join(' | ');

/** Whether whatever happens under `set` happens under one of `sets`. */
const covers = (sets: readonly OutlineDoubts[], set: OutlineDoubts): boolean =>
  sets.some((one) => one.every((doubt) => set.includes(doubt)));

/**
 * What engine and naive player say of a zone, as texts that have to be equal. One difference is known,
 * with a test of its own below: around it less is asked.
 */
const compared = (zone: OutlineZone, engine: Sets, oracle: Sets): readonly [string, string] => {
  const fades = zone.layers.some(({ of }) => of !== 'velocity');
  const isCoarse = zone.isChosen && zone.articulation.sampled === null;
  if (fades && (zone.kind === 'release' || isCoarse)) {
    const [a, b] = [engine, oracle].map((sets) =>
      texts(sets.filter((set) => !set.includes('order'))),
    );
    return [a!, b!];
  }
  return [texts(engine), texts(oracle)];
};

type Sets = readonly OutlineDoubts[];

const cases = randomOutline().chain(({ outline, selecting }) =>
  fc.tuple(fc.constant(outline), randomOutlineReel(selecting), outlineStyle),
);

describe('outlines', () => {
  test('have the zones, and reach them under the doubts, of the naive player', () => {
    fc.assert(
      fc.property(cases, ([outline, cues, style]) => {
        const reel = cues.map(inSeconds);
        const engine = byEngine(outline, style, reel);
        const oracle = playOutline(outline, reel);
        expect(engine.map(({ zone }) => zone)).toEqual(oracle.map(({ zone }) => zone));
        const both = zonesOf(outline).map((zone, i) => ({
          zone: zone.name,
          said: compared(zone, engine[i]!.reached, oracle[i]!.reached),
        }));
        expect(both.map(({ zone, said: [a] }) => `${zone}: ${a}`)).toEqual(
          both.map(({ zone, said: [, b] }) => `${zone}: ${b}`),
        );
      }),
      { seed, numRuns: runs },
    );
  }, 600_000);
});

/** When one of these fails, the difference is gone: ask for everything above. */
describe('a known difference from the naive player', () => {
  const style: OutlineStyle = { middleC: 4, row: false, short: true, lists: true, seconds: 1 };
  const event = (tick: number, kind: OutlineEvent['kind'], data1: number, data2: number) => ({
    ...{ tick, kind, data1, data2 },
    ...{ seconds: 0, channel: 0 },
  });
  const sameAs = (outline: OutlineData, events: readonly OutlineEvent[]): void => {
    const reel = [inSeconds({ events, tempos: [] })];
    expect(byEngine(outline, style, reel)).toEqual(playOutline(outline, reel));
  };

  test.fails('a controller that moves on the tick of a release, after it: under `tail`', () => {
    const layers = [{ of: 1, layers: [[30, 60]] }] as const;
    const own = releases({ at: 'release', layers });
    sameAs({ articulations: [articulation('a', { keys: [[60, 60]], releases: own })] }, [
      event(480, 'note-on', 60, 90),
      event(900, 'note-off', 60, 64),
      event(900, 'controller', 1, 127),
    ]);
  });

  test('what comes back sounds while its key is held, not only as a tail', () => {
    const layers = [
      { of: 'velocity', layers: [[41, 127]] },
      { of: 1, layers: [[64, 127]] },
    ] as const;
    const back = legato({ intervals: 2, overlap: 0.08, returns: true });
    const one = articulation('a', { keys: [[60, 62]], sampled: [60], layers, legato: back });
    const reel = [
      inSeconds({
        events: [
          event(480, 'note-on', 60, 30),
          event(900, 'note-on', 62, 100),
          event(1200, 'note-off', 62, 64),
          event(1500, 'controller', 1, 100),
          event(1900, 'note-off', 60, 64),
        ],
        tempos: [],
      }),
    ];
    const outline = { articulations: [one] };
    const engine = byEngine(outline, style, reel);
    for (const { zone, reached } of playOutline(outline, reel)) {
      const found = engine.find((each) => each.zone === zone)!.reached;
      expect(
        reached.filter((set) => !covers(found, set)),
        zone,
      ).toEqual([]);
    }
  });
});
