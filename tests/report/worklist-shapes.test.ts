import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { worklistCsv } from '../../src/report/worklist-csv.ts';
import { worklistMarkdown } from '../../src/report/worklist-markdown.ts';
import { hostileNames } from './fixtures/names.ts';
import { newWorklist, worklist } from './fixtures/worklist.ts';

const look: Look = { colors: plainColors, ascii: false, width: null };

const rows = (text: string): readonly Record<string, string>[] =>
  parse(text, { columns: true, bom: false });

describe('CSV', () => {
  test('begins with the columns of the record', () => {
    expect(worklistCsv(worklist)).toMatch(/^number,action,done,bytes,note,machine,/);
  });

  test('has a row for each step, what is done and then what is void last', () => {
    const all = rows(worklistCsv(worklist));
    expect(all.map(({ number, done }) => [number, done])).toEqual([
      ...[2, 4, 5, 21, 14, 15, 16].map((number) => [String(number), '']),
      ['1', 'yes'],
      ['3', 'yes'],
      ...['6', '7', '8', '13'].map((number) => [number, 'void']),
    ]);
    expect(all[4]).toEqual({
      number: '14',
      action: 'unload percussion/sustain: 0-11,24-30 #1a2b3c4d',
      done: '',
      bytes: String(3.1 * 2 ** 30).split('.')[0],
      note: 'the display took a while',
      machine: 'b',
      instrument: 'percussion',
      copy: '',
      'spare-copies': '',
      articulation: 'sustain',
      layer: '',
      microphone: '',
      do: 'unload',
      'keeps-keys': '43 to 76; 84',
      'keeps-layers': 'velocity 41 to 127',
      frees: String(40.25 * 2 ** 20),
      total: String(3 * 2 ** 30),
      'unknown-samples': '',
    });
    expect(all[5]).toMatchObject({ copy: 'Fl 1', layer: 'velocity 1 to 40 and CC1 96 to 127' });
    expect(all[6]).toMatchObject({ instrument: 'flutes', copy: '', 'spare-copies': '1' });
    expect(all[8]).toMatchObject({ note: 'by mistake', machine: '', frees: '' });
    expect(all[9]).toMatchObject({
      action: 'unload basses/tremolo: 24-35 #1a2b3c4d',
      note: '',
      machine: '',
    });
  });

  test('has no figure where nobody knows the sizes', () => {
    const [machine] = worklist.machines;
    const actions = machine!.actions.map((action) => ({ ...action, unknownSamples: 3 }));
    const text = worklistCsv({ ...worklist, machines: [{ ...machine!, actions }] });
    expect(rows(text)[0]).toMatchObject({ frees: '', total: '', 'unknown-samples': '3' });
  });

  test('lets no name do anything where it is opened', () => {
    const note = '=1+1';
    const [machine] = worklist.machines;
    const actions = machine!.actions.map((action) => ({ ...action, note, instrument: note }));
    const text = worklistCsv({ ...worklist, machines: [{ ...machine!, actions }] });
    expect(rows(text)[0]).toMatchObject({ note: `'${note}`, instrument: `'${note}` });
  });
});

describe('Markdown', () => {
  test.each([
    ['worklist', worklist],
    ['worklist-new', newWorklist],
  ] as const)('%s', async (name, list) => {
    const text = worklistMarkdown(list, {}, { ...look, details: true });
    await expect(text).toMatchFileSnapshot(`${name}-markdown.golden.md`);
  });

  test('has a sign where nobody knows the sizes', () => {
    const [machine] = worklist.machines;
    const actions = [{ ...machine!.actions[0]!, unknownSamples: 3 }];
    const list = { ...worklist, machines: [{ ...machine!, actions }] };
    expect(worklistMarkdown(list, {}, look)).toContain(String.raw`| nothing stays | ? | ? |`);
  });

  /** Cells of a row as a reader of Markdown parts them (GitHub Flavored Markdown, section 4.10). */
  const cellsOf = (line: string): readonly string[] =>
    line
      .split(/(?<!\\)(?:\\\\)*\|/u)
      .slice(1, -1)
      .map((cell) => cell.trim());

  test('names break no table and mark nothing up', () => {
    const [machine] = worklist.machines;
    const actions = hostileNames.map((name) => ({
      ...machine!.actions[0]!,
      instrument: name,
      copy: name,
      note: `![x](http://x) <img src=x> ${name}`,
    }));
    const text = worklistMarkdown({ ...worklist, machines: [{ ...machine!, actions }] }, {}, look);
    const lines = text.split('\n').filter((line) => line.startsWith('|'));
    expect(lines).toHaveLength(hostileNames.length + 2);
    for (const line of lines) expect(cellsOf(line)).toHaveLength(10);
    // `>` means something at the start of a line alone (CommonMark 0.31.2, section 5.1).
    expect(text).not.toMatch(/(?<!\\)[<`]|^>|(?<!\\)!\[/mu);
    expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
  });

  test('the width of a window changes nothing', () => {
    expect(worklistMarkdown(worklist, {}, { ...look, width: 40 })).toBe(
      worklistMarkdown(worklist, {}, look),
    );
  });
});
