import { describe, expect, test } from 'vitest';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { worklistTable } from '../../src/report/worklist-table.ts';
import type { Worklist } from '../../src/trim/worklist/worklist.ts';
import { hostileNames } from './fixtures/names.ts';
import { doneWorklist, newWorklist, worklist } from './fixtures/worklist.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

/** Names as a stranger's file may hold them, wherever one can stand. */
const hostile: Worklist = {
  ...worklist,
  keep: { ...worklist.keep, path: hostileNames[0] },
  ledger: { path: hostileNames[2], isNew: false },
  machines: worklist.machines.map((machine, i) => ({
    ...machine,
    id: hostileNames[i]!,
    actions: hostileNames.map((name, k) => ({
      ...worklist.machines[i % 2]!.actions[k % 3]!,
      number: 1000 * i + k + 1,
      key: name,
      instrument: name,
      copy: k % 2 === 0 ? null : name,
      unit: {
        grain: 'layer' as const,
        articulations: [name, name],
        layer: { velocity: [1, 40] as const, controllers: [] },
        microphone: name,
      },
      note: name,
    })),
  })),
  done: hostileNames.map((name, i) => ({ number: 5000 + i, key: name, seen: null, note: name })),
};

/** Lines of more keys and layers than a line has room for. */
const large: Worklist = {
  ...worklist,
  machines: worklist.machines.map((machine, i) => ({
    ...machine,
    actions: Array.from({ length: 8 }, (_, k) => ({
      ...worklist.machines[1]!.actions[1]!,
      number: 200 * i + k + 1,
      instrument: `horns-${String(Math.floor(k / 3))}`,
      keeps: {
        keys: Array.from({ length: 12 }, (_range, key) => [10 * key, 10 * key + 1] as const),
        layers: Array.from({ length: 9 }, (_layer, layer) => ({
          velocity: [10 * layer + 1, 10 * layer + 10] as const,
          controllers: [],
        })),
      },
    })),
  })),
};

const goldens = [
  ['worklist-wide', worklist, { ...wide, details: true }],
  ['worklist-120', worklist, { ...wide, width: 120 }],
  ['worklist-80', worklist, { ...wide, width: 80, details: true }],
  ['worklist-60-ascii-c3', worklist, { ...wide, width: 60, ascii: true, middleC: 3 }],
  ['worklist-new-80', newWorklist, { ...wide, width: 80 }],
  ['worklist-done-80', doneWorklist, { ...wide, width: 80 }],
  ['worklist-hostile-100', hostile, { ...wide, width: 100 }],
] as const;

test.each(goldens)('%s', async (name, list, look) => {
  await expect(worklistTable(list, {}, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['usual', worklist],
  ['new', newWorklist],
  ['done', doneWorklist],
  ['hostile', hostile],
  ['large', large],
] as const)('the %s list', (_, list) => {
  test.each([48, 60, 72, 80, 96, 100, 120, 160, 200])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      const text = worklistTable(list, {}, { ...wide, ascii, width, details: true });
      const wider = text.split('\n').filter((line) => displayWidth(line) > width);
      expect(wider).toEqual([]);
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = worklistTable(list, {}, { ...wide, width, details: true });
      expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });
});

test('in ASCII the list itself is ASCII', () => {
  for (const width of [null, 80, 48]) {
    expect(worklistTable(worklist, {}, { ...wide, ascii: true, width })).toMatch(
      /^[\x20-\x7e\n]*$/u,
    );
  }
});

test.each([null, 48, 80, 120])(
  'every open step has one box and its number (%s columns)',
  (width) => {
    for (const list of [worklist, large]) {
      const text = worklistTable(list, {}, { ...wide, width });
      const boxes = [...text.matchAll(/^\[ \] +(\d+) /gm)].map(([, number]) => Number(number));
      expect(boxes).toEqual(
        list.machines.flatMap(({ actions }) => actions.map(({ number }) => number)),
      );
    }
  },
);

test('what is to be loaded stands out without colours', () => {
  const text = worklistTable(worklist, {}, wide);
  expect(text).toMatch(/^\[ \] 21 +LOAD +staccato +loaded whole +-6\.0 /m);
  expect(text).toMatch(/^\[ \] +5 +unload +all of it +nothing stays +499\.5 /m);
});

test('what is done is counted, and listed where details are asked for', () => {
  const [usual, detailed] = [false, true].map((details) =>
    worklistTable(worklist, {}, { ...wide, details }),
  );
  expect(usual).toContain('2 of 9 steps are done.');
  expect(usual).not.toContain('[x]');
  expect(detailed!.match(/^\[x\] \d+ {2}unload /gm)).toHaveLength(2);
});

test('one that is always heard makes the limits of other layers say nothing', () => {
  const action = worklist.machines[1]!.actions[1]!;
  const keeping = (layers: NonNullable<(typeof action)['keeps']>['layers']): string =>
    worklistTable(
      {
        ...worklist,
        machines: [
          {
            ...worklist.machines[1]!,
            actions: [{ ...action, keeps: { keys: [[60, 62]], layers } }],
          },
        ],
      },
      {},
      wide,
    );
  const soft = { velocity: [1, 40], controllers: [] } as const;
  const always = { velocity: [0, 127], controllers: [] } as const;
  expect(keeping([soft])).toContain('keep C4-D4 (60-62), velocity 1-40');
  expect(keeping([soft, always])).toMatch(/keep C4-D4 \(60-62\) /);
  expect(keeping([always])).toMatch(/keep C4-D4 \(60-62\) /);
});

test('a size that nobody knows is no zero, and the list says so once', () => {
  const unknown: Worklist = {
    ...worklist,
    machines: worklist.machines.map((machine) => ({
      ...machine,
      actions: machine.actions.map((action) =>
        action.number === 14 ? { ...action, unknownSamples: 1 } : action,
      ),
    })),
  };
  const text = worklistTable(unknown, {}, wide);
  expect(text).toMatch(/^\[ \] 14 .* \? +\? +3\.10 GiB$/m);
  expect(text).toMatch(/^\[ \] 15 .* 12\.0 +3 060\.0 /m);
  expect(text.match(/^- \?: samples of unknown size\. /gm)).toHaveLength(1);
  expect(worklistTable(worklist, {}, wide)).not.toContain('unknown size');
});

test.each([
  [undefined, 'middle C as C4 (60). The manual of a library may say C3: compare the number.'],
  [3, 'middle C as C3 (60). The manual of a library may say C4: compare the number.'],
] as const)('how keys are named (%s)', (middleC, says) => {
  const look: Look = middleC === undefined ? wide : { ...wide, middleC };
  expect(worklistTable(worklist, {}, look)).toContain(says);
});

test('commands to copy have the names as they are typed', () => {
  const list = {
    ...worklist,
    keep: { ...worklist.keep, path: '$(rm -r *).json' },
    ledger: { path: 'what is loaded.csv', isNew: false },
  };
  const text = worklistTable(list, { template: 'my score/keepset.yaml' }, wide);
  expect(text).toContain(
    'keepset worklist --keep \'$(rm -r *).json\' --loaded "what is loaded.csv" --template "my score/keepset.yaml" --done 3-7,12',
  );
});

test('the full template is to be kept safe, whatever there is to do', () => {
  for (const list of [worklist, newWorklist, doneWorklist]) {
    expect(worklistTable(list, {}, wide)).toMatch(/full template .*\bsafe\b/u);
  }
});
