import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { check } from '../../src/jobs/check.ts';
import { plan } from '../../src/jobs/plan.ts';
import { report } from '../../src/jobs/report.ts';
import { worklist } from '../../src/jobs/worklist.ts';
import { fitsAfter } from '../../src/overview/fits-after.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { slightSteps } from '../../src/overview/slight-steps.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { smallRig } from './small-rig.ts';

type Content = Readonly<Record<string, Uint8Array | string>>;

const template = smallRig['keepset.yaml'] as string;

const withTemplateOf = (content: Content): Promise<Overview> =>
  report({ files: new MemoryFiles(content) });

const withTemplate = (text: string): Promise<Overview> =>
  withTemplateOf({ ...smallRig, 'keepset.yaml': text });

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

  /** A record of the steps in which some are ticked. */
  const recordOf = async (content: Content, done: readonly number[]): Promise<string> => {
    let record = '';
    const write = (_: string, text: string): Promise<void> => {
      record = text;
      return Promise.resolve();
    };
    const asked = { keep: 'keep.json', loaded: 'loaded.csv', write };
    await worklist({ ...asked, files: new MemoryFiles(content) });
    const files = new MemoryFiles({ ...content, 'loaded.csv': record });
    await worklist({ ...asked, files, done });
    return record;
  };

  /** Whether the first machine holds what is loaded when these steps are done, as `check` tells. */
  const fitsWhenDone = async (content: Content, done: readonly number[]): Promise<boolean> => {
    const files = new MemoryFiles({ ...content, 'loaded.csv': await recordOf(content, done) });
    const { machines, verdict } = await check({
      ...{ files, keep: 'keep.json', cues: ['cues'], loaded: 'loaded.csv' },
    });
    expect(verdict).not.toBe('missing');
    return machines[0]!.fits!;
  };

  const withBudget = async (rig: Content, budget: number): Promise<Content> => {
    const content = {
      ...rig,
      'keepset.yaml': template.replace(
        'memory: 40 MB, reserve: 2 MB',
        `memory: ${String(budget)} B`,
      ),
    };
    const made = await plan({ files: new MemoryFiles(content) });
    return { ...content, 'keep.json': toJson(withMessages(made)) };
  };

  /** Another articulation of the horns has the sample of the muted ones. */
  const sharing: Content = {
    ...smallRig,
    'tables/horns.csv': `${smallRig['tables/horns.csv'] as string}open,E0,C3-B4,1-127,hn-mute.wav,5000000\n`,
  };

  test.each([
    ['the cues of the plan', smallRig, []],
    ['a revision that needs some of what goes', smallRig, ['later']],
    ['a revision that needs a sample of what goes besides', sharing, ['later']],
  ] as const)('is that after which check says so, with %s', async (_, rig, cues) => {
    const { full } = (await withTemplateOf(rig)).machines[0]!.bytes;
    let between = 0;
    let never = 0;
    for (const less of [1, 1_000, 1_003, 3_000_000, 3_202_000, 6_000_000, 9_000_000, 15_000_000]) {
      const content = await withBudget(rig, full - less);
      const files = new MemoryFiles(content);
      const told = await report({ files, keep: 'keep.json', cues });
      const { fitsNow, fitsAfter: after } = told.machines[0]!;
      expect(fitsNow).toBe(false);
      const doable = told.worklist[0]!.actions.filter(({ missed }) => missed === null).map(
        ({ number }) => number,
      );
      if (cues.length > 0) expect(doable.length).toBeLessThan(told.worklist[0]!.actions.length);
      if (after === null) {
        expect(await fitsWhenDone(content, doable)).toBe(false);
        never++;
        continue;
      }
      const at = doable.indexOf(after);
      expect(at).toBeGreaterThanOrEqual(0);
      expect(await fitsWhenDone(content, doable.slice(0, at + 1))).toBe(true);
      expect(await fitsWhenDone(content, doable.slice(0, at))).toBe(false);
      between++;
    }
    expect(between).toBeGreaterThan(2);
    // What must not be done is not there to make room.
    expect(never > 0).toBe(cues.length > 0);
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

test('steps that must not be done are not among those that are not worth it', async () => {
  // Of machine a: two steps of the horns are needed by the revision, the strings free most of the rest.
  const horns = `${smallRig['tables/horns.csv'] as string}open,E0,C3-B4,1-1,hn-open.wav,3000\n`;
  const needed = horns.replace('hn-mute.wav,5000000', 'hn-mute.wav,9000');
  const content = { ...smallRig, 'tables/horns.csv': needed };
  const made = await plan({ files: new MemoryFiles(content) });
  const files = new MemoryFiles({ ...content, 'keep.json': toJson(withMessages(made)) });
  const [own] = (await report({ files, keep: 'keep.json' })).worklist;
  const muted = own!.actions.find(({ unit }) => unit.articulations.includes('muted'))!;
  const open = own!.actions.find(({ unit }) => unit.articulations.includes('open'))!;
  expect(own!.slight.numbers.toSorted()).toEqual([muted.number, open.number].toSorted());
  const [revised] = (await report({ files, keep: 'keep.json', cues: ['later'] })).worklist;
  expect(revised!.actions.find(({ number }) => number === muted.number)!.missed).toBe('plain');
  expect(revised!.slight.numbers).toEqual([open.number]);
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
