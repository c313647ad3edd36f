import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { check } from '../../src/jobs/check.ts';
import { plan } from '../../src/jobs/plan.ts';
import { page } from '../../src/jobs/report-page.ts';
import { report } from '../../src/jobs/report.ts';
import { inAllCopies } from '../../src/overview/in-all-copies.ts';
import type { Playable } from '../../src/overview/overview-playable.ts';
import { dynamicsInPart } from '../../src/report/page/size/fewer-keys.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { cueBytes } from '../jobs/midi-cue.ts';

const note = (tick: number, key: number) => ({ tick, key, velocity: 90, length: 240 });

/** Two desks of horns with zones of their own: the first plays sustain, the second muted. Invented. */
const filesOf = (route = '{ track: "Hn*", instrument: horns }', names = ['Hn 1', 'Hn 2']) => ({
  'keepset.yaml': `cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, shares: copy, unloads: articulation, per-zone: 100 B } }
instruments: { horns: { zones: horns.csv, middle-c: C4 } }
routes: [ ${route} ]
`,
  'horns.csv': `articulation,switch,keys,velocities,sample,bytes
sustain,C0,C3-B4,1-127,sus.wav,1000
muted,C#0,C3-B4,1-127,mute.wav,2000
`,
  'cues/1m1.mid': cueBytes([
    { name: names[0]!, notes: [note(0, 12), note(480, 50)] },
    { name: names[1]!, notes: [note(0, 13), note(480, 50)] },
  ]),
});

/** What a composer reads of the horns. */
const composerLines = async (files: ReturnType<typeof filesOf>): Promise<readonly string[]> => {
  const html = await page(await report({ files: new MemoryFiles(files) }));
  const section = /<section id=composer.*?<\/section>/s.exec(html)![0];
  return [...section.matchAll(/<p data-instrument.*?<\/p>/gs)].map(([line]) =>
    line.replace(/<[^>]*>/g, '').replaceAll('\u00a0', ' '),
  );
};

test('copies that differ are told apart: may horn 1 play muted? No, and check says so too', async () => {
  const files = filesOf();
  expect(await composerLines(files)).toEqual([
    'horns (Hn 1): sustain; C3-B4 (48-71); every dynamic; muted: gone.',
    'horns (Hn 2): muted; C3-B4 (48-71); every dynamic; sustain: gone.',
  ]);
  const keep = toJson(withMessages(await plan({ files: new MemoryFiles(files) })));
  const later = cueBytes([{ name: 'Hn 1', notes: [note(0, 13), note(480, 50)] }]);
  const { verdict } = await check({
    files: new MemoryFiles({ ...files, 'keep.json': keep, 'later/1m1 v2.mid': later }),
    keep: 'keep.json',
    cues: ['later'],
  });
  expect(verdict).toBe('missing');
});

test('the data say what all copies have, and what each has', async () => {
  const { instruments } = await report({ files: new MemoryFiles(filesOf()) });
  const told = instruments[0]!.articulations.map(({ playable, copies }) => [
    playable.state,
    copies.map(({ copy, playable: own }) => [copy, own.state]),
  ]);
  expect(told).toEqual([
    [
      'gone',
      [
        [0, 'whole'],
        [1, 'gone'],
      ],
    ],
    [
      'gone',
      [
        [0, 'gone'],
        [1, 'whole'],
      ],
    ],
  ]);
});

test('a copy that its route holds to one articulation is not asked for others', async () => {
  const route = '{ track: "Hn {art}", instrument: horns, articulation: "{art}" }';
  const files = filesOf(route, ['Hn sustain', 'Hn muted']);
  expect(await composerLines(files)).toEqual([
    'horns (Hn sustain for sustain only, Hn muted for muted only): sustain, muted; C3-B4 (48-71); every dynamic.',
  ]);
});

test('copies that are alike are one line', async () => {
  const files = {
    ...filesOf(),
    'cues/1m2.mid': cueBytes([
      { name: 'Hn 2', notes: [note(0, 12), note(480, 50)] },
      { name: 'Hn 1', notes: [note(0, 13), note(480, 50)] },
    ]),
  };
  const { instruments } = await report({ files: new MemoryFiles(files) });
  expect(instruments[0]!.articulations.map(({ copies }) => copies)).toEqual([[], []]);
  expect(await composerLines(files)).toEqual([
    'horns (Hn 1, Hn 2): sustain, muted; C3-B4 (48-71); every dynamic.',
  ]);
});

// By hand: velocities up to 80 in one copy and from 60 in the other; the key 50 in one alone.
test('all copies have the keys that each has, and the dynamics that are safe in each', () => {
  const part = (keys: readonly [number, number], safe: readonly [number, number]): Playable => ({
    ...{ state: 'part', all: [[48, 60]] },
    stretches: [
      {
        keys: [keys],
        dynamics: [{ by: 'velocity', safe: [safe], all: [1, 127] }],
        together: [],
        dependsOn: [],
        releasesGone: false,
      },
    ],
  });
  expect(inAllCopies([part([48, 50], [1, 80]), part([48, 49], [60, 127])])).toEqual(
    part([48, 49], [60, 80]),
  );
  const wheel: Playable = {
    ...{ state: 'part', all: [[48, 60]] },
    stretches: [
      {
        keys: [[48, 50]],
        dynamics: [{ by: 1, safe: [[0, 9]], all: [0, 127] }],
        together: [],
        dependsOn: [],
        releasesGone: false,
      },
    ],
  };
  const [both] = inAllCopies([part([48, 50], [1, 80]), wheel]).stretches;
  expect(both!.dynamics).toEqual([
    { by: 'velocity', safe: [], all: [1, 127] },
    { by: 1, safe: [], all: [0, 127] },
  ]);
  expect(both!.together).toEqual([
    { by: 'velocity', range: [1, 80] },
    { by: 1, range: [0, 9] },
  ]);
  const lower: Playable = {
    ...wheel,
    stretches: [
      {
        keys: [[48, 50]],
        dynamics: both!.dynamics,
        together: [
          { by: 'velocity', range: [40, 100] },
          { by: 1, range: [0, 20] },
        ],
        dependsOn: [],
        releasesGone: false,
      },
    ],
  };
  expect(inAllCopies([part([48, 50], [1, 80]), lower]).stretches[0]!.together).toEqual([
    { by: 'velocity', range: [40, 80] },
    { by: 1, range: [0, 20] },
  ]);
  const [apart] = inAllCopies([part([48, 50], [1, 30]), lower]).stretches;
  expect([apart!.together, apart!.dependsOn]).toEqual([[], ['velocity', 1]]);
});

test('where dynamics are told as in part, they are for each copy too', async () => {
  const [horns] = (await report({ files: new MemoryFiles(filesOf()) })).instruments;
  const stretch = (key: number) => ({
    keys: [[key, key] as const],
    dynamics: [{ by: 'velocity' as const, safe: [[1, key] as const], all: [1, 127] as const }],
    together: [],
    dependsOn: [],
    releasesGone: false,
  });
  const playable: Playable = {
    ...{ state: 'part', all: [[48, 60]] },
    stretches: [48, 49, 50, 51].map(stretch),
  };
  const [sustain] = horns!.articulations;
  const copies = [{ copy: 0, playable }];
  const less = dynamicsInPart({ ...horns!, articulations: [{ ...sustain!, playable, copies }] });
  const [told] = less.articulations;
  expect(told!.playable.stretches.map(({ keys }) => keys)).toEqual([[[48, 51]]]);
  expect(told!.copies).toEqual([{ copy: 0, playable: told!.playable }]);
});
