import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { ladderPoints, controllerSteps } from '../../src/keep/headroom-curve/ladder.ts';
import { makePlan, type PlanInput } from '../../src/keep/make-plan.ts';
import type { HeadroomStep, Plan } from '../../src/keep/plan.ts';
import { reachedClasses } from '../../src/keep/reach.ts';
import type { FileUsage } from '../../src/playback/zone-usage.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import type { Headroom } from '../../src/template/template.ts';
import { doubtNames, doubtSet } from '../../src/terms/doubt.ts';
import { toJson } from '../../src/report/json.ts';
import { instrumentOf, off, on, start, usageOf } from '../playback/hand-made.ts';
import { wholeTemplate } from '../playback/whole-cue.ts';
import { inputOf, randomTemplateReel } from './random-template-reel.ts';
import { runs } from '../runs.ts';

/**
 * Headroom by evidence against the long way round: for every cue, every pair of versions and every
 * headroom that is tried a real plan of the others, and the notes of the cue looked up in it one by one.
 */
const asked = process.env['KEEPSET_CURVE_RUNS'];
const sample = asked === undefined ? { numRuns: runs(20), seed: 51 } : { numRuns: Number(asked) };

const exact = { ...asExported, furtherRooms: controllerSteps };

interface Trial {
  readonly name: string;
  readonly isRevision: boolean;
  readonly rest: readonly FileUsage[];
  readonly own: readonly FileUsage[];
}

const numberOf = ({ cue }: FileUsage): string => cue.split(' ')[0]!;

const trials = (files: readonly FileUsage[]): readonly Trial[] => {
  const found: Trial[] = [];
  const isRead = ({ state }: FileUsage): boolean => state !== 'unreadable';
  for (const number of new Set(files.map(numberOf))) {
    const own = files.filter((file) => numberOf(file) === number);
    const others = files.filter((file) => numberOf(file) !== number);
    const name = own.length === 1 ? own[0]!.cue : number;
    if (own.every(isRead) && others.some(isRead)) {
      found.push({ name, isRevision: false, rest: others, own });
    }
    const sorted = [...own].sort((a, b) => (a.version ?? 0) - (b.version ?? 0));
    for (let i = 1; i < sorted.length; i++) {
      const [older, newer] = [sorted[i - 1]!, sorted[i]!];
      if (!isRead(older) || !isRead(newer)) continue;
      const rest = files.filter((file) => others.includes(file) || file === older);
      found.push({ name: newer.cue, isRevision: true, rest, own: [newer] });
    }
  }
  return found;
};

const planAt = (input: PlanInput, files: readonly FileUsage[], headroom: Headroom): Plan =>
  makePlan({ ...input, files, template: { ...input.template, headroom } });

/** Whether a plan keeps what every note of some files needs. */
const covers = (input: PlanInput, plan: Plan, { rest, own }: Trial): boolean =>
  [...input.instruments.values()].every((instrument) =>
    coversOne(input, plan, instrument, rest, own),
  );

const coversOne = (
  { template }: PlanInput,
  plan: Plan,
  instrument: Instrument,
  rest: readonly FileUsage[],
  own: readonly FileUsage[],
): boolean => {
  const planned = plan.instruments.find(({ id }) => id === instrument.id)!;
  const plainly = doubtSet(...doubtNames.filter((name) => template.settle[name] === 'plain'));
  const loud = (zone: number, copy: string): boolean => {
    const kept = planned.kept.find((one) => one.zone === zone);
    if (planned.shares === 'machine') return kept !== undefined && kept.reasons[0] !== 'mutes';
    const of = planned.copies.find(({ name }) => name === copy);
    return of !== undefined && of.kept!.includes(zone) && !of.muted.includes(zone);
  };
  const there = (zone: number, copy: string): boolean =>
    planned.shares === 'machine'
      ? planned.kept.some((one) => one.zone === zone)
      : planned.copies.some(({ name, kept }) => name === copy && kept!.includes(zone));
  for (const reached of reachedClasses(instrument, [...rest, ...own])) {
    if (!own.includes(reached.file)) continue;
    const needs = (sets: readonly number[]): boolean => sets.some((set) => (set & plainly) === 0);
    const { copy } = reached.copy;
    for (const { start, doubts } of reached.starts) {
      if (needs(doubts) && !loud(instrument.zones[start.zone]!.id, copy)) return false;
    }
    for (const { start, doubts } of reached.silent) {
      if (needs(doubts) && !there(instrument.zones[start.zone]!.id, copy)) return false;
    }
  }
  return true;
};

const bruteForce = (input: PlanInput): readonly HeadroomStep[] => {
  const all = trials(input.files);
  const none = planAt(input, input.files, ladderPoints[0]!.headroom).total;
  return ladderPoints.map(({ headroom }) => {
    const missed = all.filter((trial) => {
      const legible = trial.rest.map((file) => ({ ...file, tainted: [] }));
      return !covers(input, planAt(input, legible, headroom), { ...trial, rest: legible });
    });
    const { total } = planAt(input, input.files, headroom);
    const revisions = missed.filter(({ isRevision }) => isRevision).length;
    return {
      headroom,
      cuesServed: all.filter(({ isRevision }) => !isRevision).length - (missed.length - revisions),
      revisionsServed: all.filter(({ isRevision }) => isRevision).length - revisions,
      missed: missed.map(({ name }) => name),
      zones: total.zonesKept - none.zonesKept,
      bytes: total.bytes.kept - none.bytes.kept,
    };
  });
};

const servedBy = ({ cuesServed, revisionsServed }: HeadroomStep): number =>
  cuesServed + revisionsServed;

describe('the headroom curve', () => {
  test('is what plans of the others tell, one by one', async () => {
    const seen = { missed: 0, between: 0, paid: 0, revisions: 0 };
    await fc.assert(
      fc.asyncProperty(randomTemplateReel, async (reel) => {
        const input = await inputOf(reel, exact);
        const expected = bruteForce(input);
        const { cues, revisions, steps } = makePlan({
          ...input,
          headroomCurve: true,
        }).headroomCurve!;
        const all = trials(input.files);
        expect(cues).toBe(all.filter(({ isRevision }) => !isRevision).length);
        expect(revisions).toBe(all.filter(({ isRevision }) => isRevision).length);
        for (const step of steps) {
          const same = expected.find(
            ({ headroom }) => JSON.stringify(headroom) === JSON.stringify(step.headroom),
          )!;
          expect({ ...step, missed: [...step.missed].sort() }).toEqual({
            ...same,
            missed: [...same.missed].sort(),
          });
        }
        // Nothing that was tried serves as many for less, but what is listed.
        for (const one of expected) {
          expect(
            steps.some((step) => step.bytes <= one.bytes && servedBy(step) >= servedBy(one)),
          ).toBe(true);
        }
        expect(steps[0]).toMatchObject({ headroom: ladderPoints[0]!.headroom, bytes: 0, zones: 0 });
        const last = steps.at(-1)!;
        if (last.missed.length > 0) expect(last.headroom).toEqual(expected.at(-1)!.headroom);
        for (let i = 1; i < steps.length; i++) {
          const [before, step] = [steps[i - 1]!, steps[i]!];
          expect(step.bytes).toBeGreaterThanOrEqual(before.bytes);
          if (step !== last) expect(servedBy(step)).toBeGreaterThan(servedBy(before));
        }
        if (last.missed.length > 0) seen.missed++;
        if (steps.length > 2) seen.between++;
        if (steps.some(({ bytes }) => bytes > 0)) seen.paid++;
        if (revisions > 0) seen.revisions++;
      }),
      sample,
    );
    // The reels are such that all of it happens.
    for (const times of Object.values(seen)) expect(times).toBeGreaterThan(0);
  }, 600_000);

  test('room for controllers, told exactly, changes no plan with less of it', async () => {
    await fc.assert(
      fc.asyncProperty(randomTemplateReel, async (reel) => {
        for (const controller of [0, ...controllerSteps]) {
          const headroom = { keys: 1, velocity: 8, controller };
          const just = await inputOf(reel, { ...asExported, controllerRoom: controller });
          const more = await inputOf(reel, { ...exact, controllerRoom: controller });
          const plan = planAt(just, just.files, headroom);
          expect(toJson(planAt(more, more.files, headroom))).toBe(toJson(plan));
        }
      }),
      { ...sample, numRuns: 2 * sample.numRuns },
    );
  }, 600_000);

  const curveOf = (
    instrument: Instrument,
    files: readonly FileUsage[],
  ): readonly HeadroomStep[] => {
    const input: PlanInput = {
      template: wholeTemplate(instrument),
      instruments: new Map([[instrument.id, instrument]]),
      files,
      reel: { without: [], newest: false, acceptPartial: [], allowUnmapped: false, split: null },
      ...{ isPartial: false, rare: null, headroomCurve: true, findings: [] },
    };
    return makePlan(input).headroomCurve!.steps;
  };
  const servedAt = (steps: readonly HeadroomStep[]): readonly (readonly [number, number])[] =>
    steps.map(({ headroom, cuesServed }) => [headroom.keys, cuesServed]);

  test('what the others choose answers for a cue that chooses nothing', () => {
    const gate = (key: number) => [{ signal: 0, tests: [{ lo: key, hi: key, doubt: 0 }] }];
    const instrument = instrumentOf(
      {
        signals: [{ kind: 'switch', keys: [[24, 25]], initial: null }],
        gates: [gate(24), gate(25)],
        starts: [24, 25].flatMap((_, gate) =>
          [60, 61].map((key, i) => start(2 * gate + i, { keys: [key, key], gate })),
        ),
      },
      [1, 2, 4, 8],
    );
    // Left out, 1m2 is heard as 25, which 1m1 has chosen: a semitone from what 1m1 plays.
    const files = [
      usageOf(instrument, [on(0, 25), off(100, 25), on(480, 61)], '1m1', undefined, exact),
      usageOf(instrument, [on(480, 60)], '1m2', undefined, exact),
    ];
    expect(servedAt(curveOf(instrument, files))).toEqual([
      [0, 0],
      [1, 2],
    ]);
  });

  test('room for one half of a stereo pair is room for the other', () => {
    const made = instrumentOf(
      {
        signals: [],
        gates: [[]],
        starts: [
          start(0, { keys: [60, 60] }),
          start(1, { keys: [90, 90] }),
          start(2, { keys: [61, 61] }),
        ],
      },
      [1, 2, 4],
    );
    const instrument: Instrument = {
      ...made,
      samples: made.samples.map((sample, i) => ({ ...sample, partner: i < 2 ? 1 - i : null })),
    };
    const files = [
      usageOf(instrument, [on(0, 61)], '1m1', undefined, exact),
      usageOf(instrument, [on(0, 90)], '1m2', undefined, exact),
    ];
    // 1m1 with a semitone keeps the left half at 60, and with it the right half, which 1m2 plays.
    expect(servedAt(curveOf(instrument, files)).slice(0, 2)).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });
});
