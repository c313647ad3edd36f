import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { check } from '../../../src/jobs/check.ts';
import { plan } from '../../../src/jobs/plan.ts';
import { worklist } from '../../../src/jobs/worklist.ts';
import { toJson } from '../../../src/report/json.ts';
import { withMessages } from '../../../src/report/messages.ts';
import { InputError } from '../../../src/terms/errors.ts';
import type { Worklist } from '../../../src/trim/worklist/worklist.ts';
import { cueBytes } from '../../jobs/midi-cue.ts';
import { actionsOf } from './worklist-session.ts';

/** A record that was begun with one outline, and goes on with another. */

const arco = 'arco: { switch: C0, sampled: C1..C5 every 2 }';
const pizz = 'pizz: { switch: C#0, sampled: C1..C5 every 2 }';
const harm = 'harm: { switch: D0, sampled: C1..C5 every 2 }';

const outline = (...articulations: readonly string[]): string => {
  const more = ', keys: C1-C5, stretch: down, round-robins: 1, measured: 100 MB }';
  return `middle-c: C3\narticulations:\n${articulations.map((one) => `  ${one.replace(' }', more)}\n`).join('')}`;
};

/** Two notes of arco, whose switch is C0: key 24 where C3 is middle C. */
const cue = cueBytes([
  {
    name: 'Vln',
    notes: [
      { tick: 0, length: 48, key: 24, velocity: 100 },
      { tick: 480, length: 480, key: 50, velocity: 80 },
      { tick: 1440, length: 480, key: 52, velocity: 80 },
    ],
  },
]);

class Desk {
  readonly contents: Record<string, string | Uint8Array> = {
    'keepset.yaml': `
cues: cues
machines: { a: { memory: 4 GiB } }
players: { v: { loads: whole, shares: copy, unloads: sample } }
defaults: { player: v, machine: a }
instruments: { v: { outline: o.yaml } }
routes: [{ track: Vln, instrument: v }]
`,
    'cues/1m1.mid': cue,
  };

  async plan(text: string): Promise<void> {
    this.contents['o.yaml'] = text;
    const made = await plan({ files: new MemoryFiles(this.contents) });
    this.contents['keep.json'] = toJson(withMessages(made));
  }

  list(done: readonly number[] = [], undo: readonly number[] = []): Promise<Worklist> {
    return worklist({
      ...{ keep: 'keep.json', loaded: 'loaded.csv', done, undo },
      files: new MemoryFiles(this.contents),
      write: (path, written) => {
        this.contents[path] = written;
        return Promise.resolve();
      },
    });
  }

  check() {
    const files = new MemoryFiles(this.contents);
    return check({ keep: 'keep.json', loaded: 'loaded.csv', files });
  }
}

const refused = async (act: Promise<unknown>): Promise<readonly [string, unknown]> => {
  const error: unknown = await act.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof InputError)) throw new Error('nothing was refused', { cause: error });
  expect(error.others).toEqual([]);
  return [error.finding.code, error.finding.args];
};

/** Begun with two articulations; the first step, which is of arco, is done. */
const begun = async (): Promise<Desk> => {
  const desk = new Desk();
  await desk.plan(outline(arco, pizz));
  expect(actionsOf(await desk.list()).map(({ key }) => key)).toEqual([
    expect.stringMatching(/^unload v@Vln\/arco: 0-6,9-24 #[\da-f]{8}$/u),
    expect.stringMatching(/^unload v@Vln\/pizz: 25-49 #[\da-f]{8}$/u),
  ]);
  await desk.list([1]);
  expect((await desk.check()).verdict).toBe('proved');
  return desk;
};

const edits: readonly (readonly [string, string])[] = [
  ['an articulation before the others', outline(harm, arco, pizz)],
  ['a recording for every key', outline(arco.replace('every 2', 'every 1'), pizz)],
  ['two lines that change places', outline(pizz, arco)],
];

describe.each(edits)('%s', (_, edited) => {
  const stale = { number: 1, instrument: 'v', copy: 'Vln', reason: 'zones' };

  test('what was done is refused, by the list and by the check', async () => {
    const desk = await begun();
    await desk.plan(edited);
    const before = desk.contents['loaded.csv'];
    expect(await refused(desk.list())).toEqual(['worklist-ledger-stale', stale]);
    expect(await refused(desk.check())).toEqual(['worklist-ledger-stale', stale]);
    expect(desk.contents['loaded.csv']).toBe(before);
  });

  test('without a new plan, a new plan is asked for', async () => {
    const desk = await begun();
    desk.contents['o.yaml'] = edited;
    const changed = ['worklist-instrument-changed', { instrument: 'v' }];
    expect(await refused(desk.check())).toEqual(changed);
    expect(await refused(desk.list())).toEqual(changed);
  });

  test('the tick taken back, the list begins anew with numbers of its own', async () => {
    const desk = await begun();
    await desk.plan(edited);
    const list = await desk.list([], [1]);
    expect(list.findings.map(({ code, severity, args }) => [code, severity, args])).toEqual([
      ['worklist-ledger-left', 'warning', stale],
      ['worklist-ledger-left', 'warning', { ...stale, number: 2 }],
    ]);
    expect(list.void.map(({ number }) => number)).toEqual([1, 2]);
    expect(Math.min(...actionsOf(list).map(({ number }) => number))).toBe(3);
    const [machine] = list.machines;
    expect(machine!.bytes.now).toBe(machine!.bytes.full);
    expect((await desk.check()).verdict).toBe('proved');
  });

  test('the definition put back, the record is as it was', async () => {
    const desk = await begun();
    const before = desk.contents['loaded.csv'];
    await desk.plan(edited);
    await desk.plan(outline(arco, pizz));
    expect(actionsOf(await desk.list()).map(({ number }) => number)).toEqual([2]);
    expect(desk.contents['loaded.csv']).toBe(before);
  });
});

test.each([
  ['other sizes', outline(arco, pizz).replaceAll('100 MB', '250 MB')],
  ['a remark', `# as the manual has it\n${outline(arco, pizz)}`],
  ['another way to stretch', outline(arco, pizz).replaceAll('stretch: down', 'stretch: up')],
])('%s: zones are as they were, and so are the numbers', async (_, edited) => {
  const desk = await begun();
  await desk.plan(edited);
  const list = await desk.list();
  expect(list.done.map(({ number }) => number)).toEqual([1]);
  expect(actionsOf(list).find(({ key }) => key.includes('/pizz'))!.number).toBe(2);
  expect(list.findings).toEqual([]);
});

test('sizes that nobody knows are counted by their samples', async () => {
  const desk = new Desk();
  await desk.plan(outline(arco, pizz).replace(', measured: 100 MB }\n  pizz', ' }\n  pizz'));
  const [first, second] = actionsOf(await desk.list());
  expect([first!.samples, first!.unknownSamples, first!.frees]).toEqual([23, 23, 0]);
  expect([second!.samples, second!.unknownSamples]).toEqual([25, 0]);
  expect(second!.frees).toBeGreaterThan(0);
});
