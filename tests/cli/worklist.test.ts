import { readFile } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import { describe, expect } from 'vitest';
import type { Check } from '../../src/keep/check/check.ts';
import type { Worklist } from '../../src/trim/worklist/worklist.ts';
import { test } from './demo-folder.ts';
import { expectError, keepset } from './keepset.ts';
import type { Folder } from './material.ts';
import { document } from './schemas.ts';

/** Each run of the command reads the whole demo. */
const timeout = 180_000;

const run = (folder: Folder, ...more: readonly string[]) =>
  keepset(['worklist', '--keep', 'keep.json', ...more], { cwd: folder.path });

const listOf = async (folder: Folder, ...more: readonly string[]): Promise<Worklist> => {
  const { code, stdout, stderr } = await run(folder, '--format', 'json', ...more);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return document(stdout, 'worklist@1');
};

const record = ['--loaded', 'loaded.csv'] as const;

const rowsOf = async (folder: Folder): Promise<readonly Record<string, string>[]> =>
  parse(await readFile(folder.at('loaded.csv'), 'utf8'), { columns: true, bom: true });

const actionsOf = ({ machines }: Worklist) => machines.flatMap(({ actions }) => actions);

const checkOf = async (
  folder: Folder,
): Promise<{ readonly code: number | null; readonly check: Check }> => {
  const args = ['check', '--keep', 'keep.json', ...record, '--format', 'json'];
  const { code, stdout } = await keepset(args, { cwd: folder.path });
  return { code, check: document(stdout, 'check@1') };
};

test('every shape tells of the same steps', { timeout }, async ({ demo }) => {
  const list = await listOf(demo);
  const numbers = actionsOf(list).map(({ number }) => number);
  expect(numbers).toEqual(numbers.map((_, i) => i + 1));
  expect(numbers.length).toBeGreaterThan(20);
  const { machines: planned } = JSON.parse(await readFile(demo.at('keep.json'), 'utf8')) as {
    readonly machines: readonly {
      readonly bytes: { readonly full: number; readonly kept: number };
    }[];
  };
  // What only stops others stays with its sounds: nobody can unload half a zone.
  const mutes = (id: string): number =>
    list.findings.reduce(
      (sum, { code, args }) =>
        code === 'worklist-mutes' && args.machine === id ? sum + args.bytes : sum,
      0,
    );
  expect(list.machines.map(({ id, bytes }) => [bytes.full, bytes.after - mutes(id)])).toEqual(
    planned.map(({ bytes }) => [bytes.full, bytes.kept]),
  );

  const table = await run(demo);
  expect(table).toMatchObject({ code: 0 });
  const boxes = [...table.stdout.matchAll(/^\[ \] +(\d+) /gm)].map(([, number]) => Number(number));
  expect(boxes).toEqual(numbers);
  expect(table.stdout).toContain('These numbers hold for this list alone');
  expect(await run(demo, '--format', 'text')).toEqual(table);

  const csv = await run(demo, '--format', 'csv');
  const rows: readonly Record<string, string>[] = parse(csv.stdout, { columns: true });
  expect(rows.map(({ action }) => action)).toEqual(actionsOf(list).map(({ key }) => key));

  const markdown = await run(demo, '--format', 'markdown', '--machine', 'b');
  const [, b] = list.machines;
  expect(markdown.stdout.match(/^\| \[ \] \|/gm)).toHaveLength(b!.actions.length);
  expect(Object.keys(await demo.state())).not.toContain('loaded.csv');
});

test('ticks by number and by range, and takes them back', { timeout }, async ({ demo }) => {
  const first = await listOf(demo, ...record);
  expect(first.ledger).toEqual({ path: 'loaded.csv', isNew: true });
  const ticked = await listOf(demo, ...record, '--done', '3-5,12');
  expect(ticked.done.map(({ number }) => number)).toEqual([3, 4, 5, 12]);
  expect(actionsOf(ticked)).toHaveLength(actionsOf(first).length - 4);
  const back = await listOf(demo, ...record, '--undo', '4');
  expect(back.done.map(({ number }) => number)).toEqual([3, 5, 12]);
  const rows = await rowsOf(demo);
  expect(rows.filter(({ done }) => done === 'yes').map(({ number }) => number)).toEqual([
    '3',
    '5',
    '12',
  ]);
});

test('a list as CSV can be the record', { timeout }, async ({ demo }) => {
  const csv = await run(demo, '--format', 'csv', '-o', 'loaded.csv');
  expect(csv).toMatchObject({ code: 0, stdout: '' });
  const list = await listOf(demo, ...record, '--done', '1');
  expect(list.ledger).toEqual({ path: 'loaded.csv', isNew: false });
  const [row] = await rowsOf(demo);
  expect(row).toMatchObject({ number: '1', done: 'yes', machine: 'a' });
  // Whoever ticked it there would lose that.
  const again = await run(demo, '--format', 'csv', '-o', 'loaded.csv');
  expect(again).toMatchObject({ code: 2, stdout: '' });
  expectError(again, 'output-exists', 'loaded.csv');
});

describe('half done', () => {
  test('is enough for the cues, and so is all of it', { timeout }, async ({ demo }) => {
    const list = await listOf(demo, ...record);
    const last = actionsOf(list).length;
    await listOf(demo, ...record, '--done', '1-9');
    const half = await checkOf(demo);
    expect(half).toMatchObject({ code: 0, check: { verdict: 'proved', misses: [] } });
    expect(half.check.loaded).toEqual({ path: 'loaded.csv', done: 9, open: last - 9 });
    const whole = await listOf(demo, ...record, '--done', `10-${String(last)}`);
    expect(actionsOf(whole)).toEqual([]);
    expect(whole.machines.map(({ bytes }) => bytes.now)).toEqual(
      list.machines.map(({ bytes }) => bytes.after),
    );
    const table = await keepset(['check', '--keep', 'keep.json', ...record], { cwd: demo.path });
    expect(table.code).toBe(0);
    expect(table.stdout).toContain(
      `Against what is loaded now by loaded.csv: ${String(last)} of ${String(last)} actions are done.`,
    );
    expect((await run(demo, ...record)).stdout).toMatch(/^Nothing to do: /);
  });

  test('what is gone and needed is missing, and loaded again', { timeout }, async ({ demo }) => {
    const first = await listOf(demo, ...record);
    const own = actionsOf(first).find(({ instrument }) => instrument === 'percussion');
    const fingerprint = /#[\da-f]{8}$/u.exec(own!.key)![0];
    const { instruments } = JSON.parse(await readFile(demo.at('keep.json'), 'utf8')) as {
      readonly instruments: readonly {
        readonly id: string;
        readonly kept: readonly { readonly zone: number; readonly reasons: readonly string[] }[];
      }[];
    };
    const { kept } = instruments.find(({ id }) => id === 'percussion')!;
    const { zone } = kept.find(({ reasons }) => reasons.includes('played'))!;
    const before = await readFile(demo.at('loaded.csv'), 'utf8');
    await demo.write({
      'loaded.csv': `${before}900,unload percussion/by hand: ${String(zone)} ${fingerprint},yes,,\r\n`,
    });
    const { code, check } = await checkOf(demo);
    expect([code, check.verdict]).toEqual([1, 'missing']);
    expect(check.misses.map((miss) => [miss.instrument, miss.zone])).toEqual([
      ['percussion', zone],
    ]);
    const list = await listOf(demo, ...record);
    const [load] = actionsOf(list).filter(({ does }) => does === 'load');
    expect(load).toMatchObject({ number: 901, instrument: 'percussion', zones: [zone] });
    await listOf(demo, ...record, '--done', '901');
    expect((await checkOf(demo)).code).toBe(0);
  });
});

test('planned again, steps keep their numbers', { timeout }, async ({ demo }) => {
  const first = await listOf(demo, ...record);
  const byKey = new Map(actionsOf(first).map(({ key, number }) => [key, number]));
  await demo.write({
    'loaded.csv': (await readFile(demo.at('loaded.csv'), 'utf8')).replace(
      /,,\r\n$/u,
      ',123,mine\r\n',
    ),
  });
  // All of the flutes stay by that pin, so that their steps are no longer wanted.
  const pin = ['--pin', 'flutes/staccato'];
  const planned = await keepset(['plan', '-q', '-o', 'keep.json', ...pin], { cwd: demo.path });
  expect(planned.code).toBe(0);
  const second = await listOf(demo, ...record);
  expect(second.void.length).toBeGreaterThan(0);
  for (const { key, number } of actionsOf(second)) {
    expect(number).toBe(byKey.get(key) ?? number);
    if (!byKey.has(key)) expect(number).toBeGreaterThan(byKey.size);
  }
  expect(actionsOf(second).some(({ key }) => byKey.has(key))).toBe(true);
  const rows = await rowsOf(demo);
  expect(rows.find(({ note }) => note === 'mine')).toMatchObject({ bytes: '123' });
  const gone = rows.filter(({ done }) => done === 'void');
  expect(gone.map(({ number, action }) => ({ number: Number(number), key: action }))).toEqual(
    second.void.map(({ number, key }) => ({ number, key })),
  );
});

describe('2', () => {
  test('what can not be done, and nothing is written', { timeout }, async ({ demo }) => {
    await run(demo, ...record);
    const before = await demo.state();
    const refused = async (args: readonly string[], code: string, says: string): Promise<void> => {
      const result = await run(demo, ...args);
      expect(result).toMatchObject({ code: 2, stdout: '' });
      expect(result.stderr).toContain(`error[${code}]`);
      expect(result.stderr).toContain(says);
    };
    await refused(['--done', '3'], 'usage', '--loaded loaded.csv');
    await refused([...record, '--done', '3-'], 'usage', '3-7,12');
    await refused([...record, '--done', '4000'], 'ledger-number-unknown', '4000');
    await refused([...record, '--machine', 'z'], 'usage', 'z');
    await refused([...record, '-o', './loaded.csv'], 'usage', 'can not be one file');
    await refused(['--loaded', 'tracks.csv'], 'ledger-column-missing', 'tracks.csv');
    await refused(['--format', 'html'], 'usage', 'table, text, json, csv, markdown');
    const check = await keepset(['check', '--keep', 'keep.json', '--loaded', 'x.csv'], {
      cwd: demo.path,
    });
    expect(check.code).toBe(2);
    expectError(check, 'path-missing', 'x.csv');
    expect(await demo.state()).toEqual(before);
  });

  test('commands that write files of their own have no Markdown', async ({ score }) => {
    for (const command of ['draft', 'demo']) {
      const args = command === 'draft' ? [command, 'cues'] : [command, '--out', 'there'];
      const result = await keepset([...args, '--format', 'markdown'], { cwd: score.path });
      expect(result).toMatchObject({ code: 2, stdout: '' });
      expectError(result, 'usage');
    }
  });
});
