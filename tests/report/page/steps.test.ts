import { describe, expect, test } from 'vitest';
import type { Overview } from '../../../src/overview/overview.ts';
import type { OverviewMachine } from '../../../src/overview/overview-machines.ts';
import { mixSection } from '../../../src/report/page/mix.ts';
import { reelSection } from '../../../src/report/page/reel.ts';
import { technicianSection } from '../../../src/report/page/technician.ts';
import { worklistSection } from '../../../src/report/page/worklist.ts';
import { overviewOfSize } from './overview-of-size.ts';

const MiB = 2 ** 20;
const made = overviewOfSize({ instruments: 2, articulations: 2, rows: 1, cells: 2, cues: 2 });

const textOf = ({ text }: { readonly text: string }): string =>
  text
    .replace(/<(?:p|t[rdh]|li|caption)\b[^>]*>/g, ' | ')
    .replace(/<[^>]+>/g, '')
    .replaceAll('\u00a0', ' ');

const withMachine = (change: Partial<OverviewMachine>): Overview => ({
  ...made,
  machines: made.machines.map((machine, i) => (i === 0 ? { ...machine, ...change } : machine)),
});

const missedFirst = (overview: Overview): Overview => ({
  ...overview,
  worklist: overview.worklist.map((list) => ({
    ...list,
    actions: list.actions.map((step) => ({ ...step, missed: 'plain' })),
  })),
});

describe('the worklist', () => {
  test('says that a machine fits as it is', () => {
    expect(textOf(worklistSection(made))).toContain(
      'Machine a fits as it is: no step is needed for it.',
    );
    expect(textOf(worklistSection(made))).not.toContain('from here on');
  });

  test('draws the line behind the step after which it fits', () => {
    const told = textOf(worklistSection(withMachine({ fitsNow: false, fitsAfter: 1 })));
    expect(told).toContain('Machine a fits after step 1.');
    expect(told.indexOf('Machine a fits from here on.')).toBeGreaterThan(told.indexOf('unload'));
  });

  test('does not count on steps that must not be done', () => {
    const never = withMachine({ fitsNow: false, fitsAfter: null });
    expect(textOf(worklistSection(missedFirst(never)))).toContain(
      'Machine a does not fit by the steps that may be done.',
    );
    const [step] = made.worklist[0]!.actions;
    const [first, second] = [
      { ...step!, missed: 'plain' as const },
      { ...step!, number: 9 },
    ];
    const two = {
      ...withMachine({ fitsNow: false, fitsAfter: 9 }),
      worklist: made.worklist.map((list, i) =>
        i === 0 ? { ...list, actions: [first, second] } : list,
      ),
    };
    const told = textOf(worklistSection(two));
    expect(told).toContain('Machine a fits after step 9, without those above it that are needed.');
    expect(told.indexOf('from here on')).toBeGreaterThan(told.indexOf('| 9 |'));
    expect(told).toContain('Do not do step 1: the cues that were checked need what it unloads.');
  });

  test('tells which steps are not worth the time, below all of them', () => {
    expect(textOf(worklistSection(made))).toContain(
      'Not worth doing by hand: step 1, 30.0 MiB in all.',
    );
    const none = made.worklist.map((list) => ({ ...list, slight: { numbers: [], frees: 0 } }));
    expect(textOf(worklistSection({ ...made, worklist: none }))).not.toContain('Not worth');
  });

  test('says why it has other figures than the plan, where it has', () => {
    expect(textOf(worklistSection(made))).not.toMatch(
      /more than the plan counts|displays were read/,
    );
    const { bytes } = made.machines[0]!;
    const muted = withMachine({ bytes: { ...bytes, kept: bytes.kept - 2 * MiB } });
    expect(textOf(worklistSection(muted))).toContain('2.00 MiB more than the plan counts');
    const read = made.instruments.map((one) => ({ ...one, bytes: { ...one.bytes, readings: 2 } }));
    expect(textOf(worklistSection({ ...made, instruments: read }))).toContain(
      'displays were read for instrument-0.',
    );
  });
});

describe('what gives most', () => {
  test('says why there is nothing to do', () => {
    const without = { ...made, actions: [] };
    const told = (overview: Overview): string => textOf(technicianSection(overview));
    expect(told({ ...without, worklist: [] })).toContain('Nothing to unload.');
    expect(told(missedFirst(without))).toContain(
      'No step is to be done: what was checked needs all that they unload.',
    );
    expect(told(missedFirst(without))).not.toContain('Nothing to unload.');
  });

  test('links the runs of its steps that the page lists', () => {
    const actions = [{ ...made.actions[0]!, numbers: [1, 2, 3, 7] }];
    const { text } = technicianSection({ ...made, actions });
    expect(text).toContain('<a href="#w1"><span class=nb>1-3</span></a>, 7');
  });
});

describe('ranges', () => {
  test('stand only where figures differ', () => {
    expect(textOf(technicianSection(made))).not.toContain('At least');
    const { bytes } = made.machines[0]!;
    const vague = withMachine({ bytes: { ...bytes, low: bytes.low - MiB } });
    expect(textOf(technicianSection(vague))).toContain('At least');
    expect(textOf(reelSection(made))).toContain('At least');
    const cues = made.cues.map((cue) => ({ ...cue, low: cue.bytes, high: cue.bytes }));
    const certain = textOf(reelSection({ ...made, cues }));
    expect(certain).not.toMatch(/At least|No cue has a range/);
    expect(textOf(reelSection({ ...vague, cues }))).toContain('No cue has a range');
  });
});

describe('doubts', () => {
  test('are told as open only where nobody has answered', () => {
    const doubtsAt = [{ name: 'order' as const, instruments: [0], accepted: [1], plain: [] }];
    expect(textOf(technicianSection({ ...made, doubtsAt }))).toContain(
      'open; accepted for instrument-1 | instrument-0',
    );
    const plain = [{ name: 'order' as const, instruments: [0], accepted: [], plain: [1] }];
    expect(textOf(technicianSection({ ...made, doubtsAt: plain }))).toContain(
      'open; plain at instrument-1 | instrument-0',
    );
  });
});

describe('microphones', () => {
  test('are told by what they take, those alike together', () => {
    const microphones = [
      ...['close', 'tree'].map((name) => ({
        ...{ name, zones: 9, zonesKept: 6, bytesAtMost: false },
        bytes: { full: 90 * MiB, kept: 60 * MiB },
      })),
      {
        ...{ name: 'hall', zones: 9, zonesKept: 0, bytesAtMost: true },
        bytes: { full: 90 * MiB, kept: 0 },
      },
    ];
    const instruments = made.instruments.map((one) => ({ ...one, microphones }));
    const told = textOf(mixSection({ ...made, instruments }));
    expect(told).toContain('| instrument-0 | close, tree | 90.0 | 60.0');
    expect(told).toContain('| instrument-0 | hall, at most | 90.0 | 0');
  });
});
