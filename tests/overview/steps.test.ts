import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { report } from '../../src/jobs/report.ts';
import { fitsAfter } from '../../src/overview/fits-after.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { slightSteps } from '../../src/overview/slight-steps.ts';
import { smallRig } from './small-rig.ts';

const template = smallRig['keepset.yaml'] as string;

const withTemplate = (text: string): Promise<Overview> =>
  report({ files: new MemoryFiles({ ...smallRig, 'keepset.yaml': text }) });

describe('the step after which a machine fits', () => {
  // By hand: 100 are loaded, 40 stay, at the most 45, so that 5 are added on the way too.
  const bytes = { full: 100, kept: 40, low: 38, high: 45 };
  const steps = [
    { number: 3, frees: 20 },
    { number: 4, frees: 30 },
    { number: 7, frees: 10 },
  ];

  test.each([
    [null, null, null],
    [100, true, null],
    [99, false, 3],
    [85, false, 3],
    [84, false, 4],
    [55, false, 4],
    [54, false, 7],
    [45, false, 7],
    [44, false, null],
  ])('with a budget of %s', (budget, now, after) => {
    expect(fitsAfter({ budget, bytes }, steps)).toEqual({ fitsNow: now, fitsAfter: after });
  });

  test('is the first of the list that leaves as much as the budget, on the small rig', async () => {
    let between = 0;
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 7_000_000, max: 27_000_000 }), async (memory) => {
        const { machines, worklist } = await withTemplate(
          template.replace('memory: 40 MB, reserve: 2 MB', `memory: ${String(memory)} B`),
        );
        const [{ budget, bytes, fits, fitsNow, fitsAfter: after }] = [machines[0]!];
        expect(budget).toBe(memory);
        expect(fitsNow).toBe(bytes.full <= memory);
        const room = bytes.high - bytes.kept;
        const first = worklist[0]!.actions.find(({ total }) => total + room <= memory);
        expect(after).toBe(fitsNow === true ? null : (first?.number ?? null));
        if (fits === true) expect(fitsNow === true || after !== null).toBe(true);
        if (after !== null) between++;
      }),
      { seed: 7, numRuns: 40 },
    );
    expect(between).toBeGreaterThan(5);
  });
});

describe('steps that are not worth the time', () => {
  const step = (number: number, frees: number, unknownSamples = 0) =>
    ({ number, does: 'unload', frees, unknownSamples }) as const;
  const bytes = { full: 2000, kept: 1000, low: 1000, high: 1000 };

  test('are the smallest, as long as they are less than a hundredth together', () => {
    // 1000 in all, so less than 10: 2 + 3 + 4 are, 2 + 3 + 4 + 5 are not.
    const steps = [step(1, 4), step(2, 986), step(3, 2), step(4, 5), step(5, 3)];
    expect(slightSteps({ budget: null, bytes }, steps)).toEqual({ numbers: [1, 3, 5], frees: 9 });
  });

  test('a hundredth is too much', () => {
    expect(slightSteps({ budget: null, bytes }, [step(1, 990), step(2, 10)]).numbers).toEqual([]);
  });

  test('none where the machine fits only with them', () => {
    const steps = [step(1, 991), step(2, 9)];
    expect(slightSteps({ budget: 1008, bytes }, steps).numbers).toEqual([]);
    expect(slightSteps({ budget: 1009, bytes }, steps).numbers).toEqual([2]);
  });

  test('what is of a size that nobody knows may be worth it', () => {
    const steps = [step(1, 991), step(2, 0, 3), step(3, 9)];
    expect(slightSteps({ budget: null, bytes }, steps).numbers).toEqual([3]);
  });
});

describe('what frees most', () => {
  test('counts the layers of one articulation together', async () => {
    // Both tracks play muted alone: sustain goes in three layers, 14 000 000 in six zones, staccato in
    // two, 600 000 in two zones, each zone 500 more for each of two copies.
    const { actions, worklist } = await withTemplate(
      template
        .replace(
          "{ track: 'Horns*', instrument: horns }",
          "{ track: 'Horns*', instrument: horns, articulation: muted }",
        )
        .replace('pins: [{ instrument: strings, articulation: trill }]', ''),
    );
    const horns = actions.filter(({ instrument }) => instrument === 0);
    expect(horns.map(({ articulations, frees }) => [articulations, frees])).toEqual([
      [['sustain'], 14_006_000],
      [['staccato'], 602_000],
    ]);
    expect(horns.map(({ numbers }) => numbers)).toEqual([
      [1, 2, 3],
      [4, 5],
    ]);
    expect(worklist[0]!.actions.slice(0, 5).map(({ instrument }) => instrument)).toEqual(
      Array.from({ length: 5 }, () => 'horns'),
    );
  });
});

describe('where a doubt was answered', () => {
  const flute = '{ zones: tables/flute.csv, middle-c: C4, player: pit, machine: b }';
  const settledAs = (answer: string): string =>
    template.replace(flute, flute.replace(' }', `, settle: { start-state: ${answer} } }`));

  test('it is not open', async () => {
    const accepted = await withTemplate(settledAs('accept'));
    expect(accepted.doubtsAt).toEqual([
      { name: 'start-state', instruments: [], accepted: [2], plain: [] },
    ]);
    expect(accepted.instruments[2]!.doubts).toEqual([
      { name: 'start-state', zones: 2, settled: 'accept' },
    ]);
  });

  test('settled as plain it keeps nothing', async () => {
    const plain = await withTemplate(settledAs('plain'));
    expect(plain.doubtsAt).toEqual([
      { name: 'start-state', instruments: [], accepted: [], plain: [2] },
    ]);
    expect(plain.instruments[2]!.doubts).toEqual([]);
  });
});

describe('microphones that share samples', () => {
  test('are told at the most', async () => {
    const strings = `articulation,keys,velocities,microphone,sample,bytes
sustain,C3-B3,1-127,close,one.wav,700000
sustain,C3-B3,1-127,hall,one.wav,700000
sustain,C3-B3,1-127,spot,two.wav,300000
`;
    const { instruments } = await report({
      files: new MemoryFiles({
        ...smallRig,
        'tables/strings.csv': strings,
        'keepset.yaml': template.replace(/^pins.*$/mu, ''),
      }),
    });
    // 200 a zone.
    expect(
      instruments[1]!.microphones.map(({ name, bytes, bytesAtMost }) => [name, bytes, bytesAtMost]),
    ).toEqual([
      ['close', { full: 700_200, kept: 700_200 }, true],
      ['hall', { full: 700_200, kept: 700_200 }, true],
      ['spot', { full: 300_200, kept: 300_200 }, false],
    ]);
  });
});
